import type { Claim } from './claim.js';
import { conjunction } from './conjunction.js';
import { noteIsTheFirst } from './families/chosen-note.js';
import { chordSuccessionFamily } from './families/chord-succession.js';
import { eachThing } from './families/each-thing.js';
import { rankedSubject } from './families/frequency.js';
import {
  chosenFamilies,
  extremeFamilies,
  keyFamilies,
  rankedFamilies,
  thingFamilies,
  toneFamilies,
  tonePairFamilies,
} from './families/index.js';
import { keySubject, relatedKeys } from './families/key-relation.js';
import {
  chosenThing,
  firstAppearance,
  isTheFirst,
  isThere,
  noneOccurs,
  occursInEach,
  thereAreSo,
  thingSubject,
} from './families/occurrence.js';
import { noteSubject, tonePairSubject } from './families/pitch-relation.js';
import {
  choice,
  end,
  list,
  map,
  mark,
  optional,
  otherwise,
  quiet,
  rule,
  sequence,
  startReading,
} from './grammar/index.js';
import type { Parser } from './grammar/index.js';
import { opinionSentence } from './opinion.js';
import { withOtherCounts } from './other-counts.js';
import { before } from './place/place-name.js';
import { withPrintedKey } from './printed-key.js';
import { quantifiedSentence } from './quantity/quantified.js';
import { aspectSentence } from './sentences/aspects.js';
import { atBeat } from './sentences/at-a-beat.js';
import { eachOfSeveral } from './sentences/each-of-several.js';
import { edgeSentence } from './sentences/edges-of-a-line.js';
import { enharmonicTones } from './sentences/enharmonic-tones.js';
import { fifthsSequence } from './sentences/fifths-sequence.js';
import { chordInLine, inWhichLine } from './sentences/in-which-line.js';
import { intoSentence } from './sentences/into.js';
import { largestLeapSentence } from './sentences/leaps.js';
import { and, between, joined } from './sentences/links.js';
import { contrast } from './sentences/not-but.js';
import { inKeySentence, severalChords, severalNumerals } from './sentences/numerals-in-keys.js';
import {
  keyReturns,
  beginsAndEndsIn,
  keyTonicized,
  modulatedBy,
  pivotInKeys,
  pivotIs,
} from './sentences/of-a-key.js';
import {
  lineHasNotes,
  bassSentence,
  allNotesOfLine,
  inLineSentence,
  leapSentence,
  melodyHas,
} from './sentences/of-a-line.js';
import { twoLinesSentence } from './sentences/of-two-lines.js';
import { onlyOnes, onlySentence } from './sentences/only.js';
import { placeSubjects, wholeMusic } from './sentences/openings.js';
import { outlinedChord } from './sentences/outlined.js';
import { pedalLasts } from './sentences/pedals.js';
import {
  predicateOf,
  plainPredicate,
  chordPredicate,
  placePredicate,
  placePredicates,
  linePredicate,
  pairPredicate,
  notePredicate,
  sectionPredicate,
} from './sentences/predicates.js';
import { registerSentence } from './sentences/register.js';
import { returnSentence } from './sentences/returns.js';
import { sameInTwoPlaces } from './sentences/same-in-two-places.js';
import { nothingOf, placeFirst, thereSentence, noteToOneself, thereInLine } from './sentences/there-is.js';
import { verbSaidOnce } from './sentences/verb-said-once.js';
import { withoutItsVerb } from './sentences/without-its-verb.js';
import { about, placedAfter, ofWholePiece } from './sentences/word-order.js';
import { statements } from './statement.js';
import { chordIn, chordSubject, onlyChord, pointedChord } from './subjects/chord-subject.js';
import { edgeNoteName } from './subjects/edge-note.js';
import { embellishmentName } from './subjects/embellishment.js';
import { extremeName } from './subjects/extreme.js';
import { lineName } from './subjects/line-name.js';
import { lineSubject, lineSubjectName } from './subjects/line.js';
import { member, memberName, memberNotes } from './subjects/member.js';
import { pointed, pointedName, pointedNotes } from './subjects/note.js';
import { pairSubject, pairSubjectName, twoLines } from './subjects/pair.js';
import { roleNoteName } from './subjects/role-note.js';
import { namedSection } from './subjects/section.js';
import { severalBars, span } from './subjects/span.js';
import { versionSentence } from './versions/version-claims.js';

/** Sentences that can be checked. */
export const plainSentence: Parser<Claim> = rule('PlainSentence', () =>
  choice(
    map(sequence(placeSubjects, placePredicates), ([subjects, predicates]) =>
      statements(subjects, predicates),
    ),
    placedAfter('Place', wholeMusic, placePredicate, (_, place) => span(place)),
    map(sequence(severalBars, list(placePredicate, and)), ([subjects, predicates]) =>
      statements(subjects, predicates),
    ),
    about('Line', lineSubjectName, linePredicate),
    placedAfter('Line', lineName, linePredicate, lineSubject),
    ofWholePiece('Line', lineName, linePredicate, lineSubject),
    about('Pair', pairSubjectName, pairPredicate),
    placedAfter('Pair', twoLines, pairPredicate, ([first, second], place) =>
      pairSubject(first, second, place),
    ),
    ofWholePiece('Pair', twoLines, pairPredicate, ([first, second], place) =>
      pairSubject(first, second, place),
    ),
    about(
      'Note',
      choice(pointedNotes, memberName, edgeNoteName, embellishmentName, roleNoteName),
      notePredicate,
    ),
    placedAfter('Note', pointedName, notePredicate, ({ name, line }, place) => pointed(name, line, place)),
    placedAfter('Member', member, notePredicate, (named, place) => memberNotes(named, place)),
    map(sequence(before, pointedName, list(notePredicate, and)), ([place, { name, line }, predicates]) =>
      statements([pointed(name, line, place)], predicates),
    ),
    about('Chord', chordSubject, chordPredicate),
    // `V42 resolves to I6 in bar 9`.
    placedAfter('Succession', pointedChord, chordSuccessionFamily.predicate, (of, place) =>
      chordIn(of, place, true),
    ),
    placedAfter('Chord', pointedChord, placePredicate, chordIn),
    about('OnlyChord', onlyChord, chordPredicate),
    about('Section', namedSection, sectionPredicate),
    about('Extreme', extremeName, predicateOf('Extreme', extremeFamilies)),
    about('Thing', thingSubject, predicateOf('Thing', thingFamilies)),
    about('Chosen', chosenThing, predicateOf('Chosen', chosenFamilies)),
    about('Ranked', rankedSubject, predicateOf('Ranked', rankedFamilies)),
    about('Tone', noteSubject, predicateOf('Tone', toneFamilies)),
    about('TonePair', tonePairSubject, predicateOf('TonePair', tonePairFamilies)),
    about('Key', keySubject, predicateOf('Key', keyFamilies)),
    firstAppearance,
    thereAreSo,
    occursInEach,
    noneOccurs,
    isTheFirst,
    noteIsTheFirst,
    isThere,
    inLineSentence,
    twoLinesSentence,
    sameInTwoPlaces,
    returnSentence,
    registerSentence,
    leapSentence,
    largestLeapSentence,
    intoSentence,
    melodyHas,
    keyReturns,
    keyTonicized,
    beginsAndEndsIn,
    enharmonicTones,
    modulatedBy,
    pivotIs,
    pivotInKeys,
    eachThing,
    relatedKeys,
    severalNumerals,
    joined(severalChords),
    thereSentence,
    thereInLine,
    noteToOneself,
    placeFirst,
    fifthsSequence,
    aspectSentence,
    edgeSentence,
    bassSentence,
    lineHasNotes,
    atBeat,
    pedalLasts,
    contrast,
    onlyOnes,
    allNotesOfLine,
    inKeySentence,
    joined(withoutItsVerb),
    joined(verbSaidOnce),
    outlinedChord,
    eachOfSeveral,
    inWhichLine,
    chordInLine,
    quantifiedSentence(plainPredicate),
  ),
);

const readAgain = (text: string): Claim | undefined =>
  claim.read(startReading(text, false), 0).steps[0]?.value;

const sentence: Parser<Claim> = rule('Sentence', () =>
  map(
    choice(
      plainSentence,
      versionSentence(
        () => plainSentence,
        () => plainPredicate,
      ),
      // After the versions, of which `only bar 8 differs` is said.
      onlySentence,
    ),
    each => withOtherCounts(withPrintedKey(each, readAgain)),
  ),
);

const allSentences = choice(map(list(sentence, between), conjunction), nothingOf);

const quote = quiet(optional(mark('“', '”', '"', '„', '«', '»', '‘', '’', "'")));

const stop = quiet(optional(mark('.')));

/** With or without a full stop, and in the quotation marks of a word processor. */
const whole = (of: Parser<Claim>): Parser<Claim> =>
  map(sequence(quote, of, stop, quote, stop, end), ([, all]) => all);

/** A whole claim: one sentence or several. What can be checked is checked, also where a quotation mark is part of it. */
export const claim: Parser<Claim> = rule('Claim', () =>
  otherwise(whole(allSentences), whole(opinionSentence(() => allSentences))),
);
