import {
  chosenThing,
  firstAppearance,
  isTheFirst,
  isThere,
  noneOccurs,
  occursInEach,
  thereAreSo,
  thingOccurs,
  thingSubject,
} from './families/occurrence.js';
import { chordRelationFamily } from './families/chord-relation.js';
import { lineRhythmFamily } from './families/durations.js';
import { crossingFamily } from './families/crossing.js';
import { soundingInterval, verticalIntervalFamily } from './families/dissonance.js';
import { aCadence, cadenceFamily } from './families/cadence.js';
import { keyFamily } from './families/key.js';
import { aLament, aLeap, melodicFamily } from './families/melodic.js';
import { motionFamily, motionName } from './families/motion.js';
import { parallelsFamily, parallelsName } from './families/parallels.js';
import type { ParallelsSays } from './families/parallels.js';
import { pedal, pedalFamily } from './families/pedal.js';
import { progressionFamily } from './families/progression.js';
import { recurrenceFamily, shift } from './families/recurrence.js';
import { extremeFamily, lineRangeFamily, rangeSize } from './families/register.js';
import { sequenceFamily } from './families/sequence.js';
import type { PitchClass } from '../score/index.js';
import type { Span } from './subjects/span.js';
import { conjunction } from './conjunction.js';
import type { Claim, Predicate, Subject } from './claim.js';
import { ruleName } from './family.js';
import type { Family } from './family.js';
import {
  chosenFamilies,
  extremeFamilies,
  keyFamilies,
  lineFamilies,
  nameableFamilies,
  noteFamilies,
  pairFamilies,
  rankedFamilies,
  spanFamilies,
  thingFamilies,
  toneFamilies,
  tonePairFamilies,
} from './families/index.js';
import { keySubject, relatedKeys } from './families/key-relation.js';
import { rankedSubject } from './families/frequency.js';
import {
  choice,
  end,
  failed,
  list,
  map,
  mark,
  optional,
  quiet,
  rule,
  sequence,
  word,
  wordsFor,
} from './grammar/index.js';
import type { Parser } from './grammar/index.js';
import { negation } from './negation.js';
import { opinionSentence } from './opinion.js';
import { ordinal, ordinalPredicate } from './quantity/ordinal.js';
import { quantifiedSentence } from './quantity/quantified.js';
import {
  at,
  atPlace,
  barList,
  beatsNamed,
  before,
  oneBar,
  placeName,
  scope,
  wholePiece,
} from './place/place-name.js';
import type { Place } from './place/place.js';
import { statement, statements } from './statement.js';
import { noteSubject, toneFamily, tonePairSubject } from './families/pitch-relation.js';
import { embellishmentName } from './subjects/embellishment.js';
import { edgeNoteName } from './subjects/edge-note.js';
import { extreme, extremeName, which } from './subjects/extreme.js';
import { chordIn, chordSubject, pointedChord } from './subjects/chord-subject.js';
import { lineSubject, lineSubjectName } from './subjects/line.js';
import { lineName, lineNoun } from './subjects/line-name.js';
import type { LineName } from './subjects/line-name.js';
import { edgeNote } from './subjects/edge-note.js';
import { linePitchFamily } from './families/line-pitch.js';
import { noteInChordFamily, partOfChord } from './families/note-in-chord.js';
import { notePitchFamily } from './families/note-pitch.js';
import { numeralFamily } from './families/numeral.js';
import { degreeOfNote, noteDegreeFamily } from './families/scale-degree.js';
import type { PointedNotes } from './subjects/note.js';
import { article } from './terms/chord-name.js';
import { anyKey, keyReference } from './terms/key-reference.js';
import { noteName, pitchClassName } from './terms/note-name.js';
import type { NoteName } from './terms/note-name.js';
import { noteValue } from './terms/note-value.js';
import { numeral } from './terms/numeral.js';
import { be, have, haveNo, startsOrEnds, verb } from './terms/verb.js';
import type { Edge, Verb } from './terms/verb.js';
import { member, memberName, memberNotes } from './subjects/member.js';
import { pointed, pointedName, pointedNotes } from './subjects/note.js';
import { pairSubject, pairSubjectName, twoLines } from './subjects/pair.js';
import { thing } from './subjects/thing.js';
import { severalBars, span, spanSubject } from './subjects/span.js';
import { versionSentence } from './versions/version-claims.js';

const and = rule('And', () =>
  choice(
    quiet(map(sequence(mark(','), optional(word('and', 'but'))), () => undefined)),
    map(word('and', 'but'), () => undefined),
  ),
);
/** `a secondary dominant that resolves to iv`. */
const andThat = choice(and, quiet(map(word('that', 'which', 'and which', 'and that'), () => undefined)));
const between = rule('Between', () =>
  choice(quiet(map(sequence(mark(';'), optional(word('and'))), () => undefined)), and),
);

const predicateOf = <S>(name: string, families: readonly Family<S>[]): Parser<Predicate<S>> =>
  rule(`${name}Predicate`, () => choice(...families.map(family => family.predicate)));

/** `the bass of bars 1-4 never leaps`. Of a place, `never` counts its bars: quantified.ts. */
const never = <S>(subject: Parser<Subject<S>>, predicate: Parser<Predicate<S>>): Parser<Claim> =>
  map(sequence(subject, word('never'), predicate), ([of, , says]) => statement(of, negation(says)));

/** `bar 3 and bar 5 are V7/V and have F#`: every predicate is said of every subject. */
const about = <S>(
  name: string,
  subject: Parser<Subject<S>>,
  predicate: Parser<Predicate<S>>,
): Parser<Claim> =>
  rule(`${name}Sentence`, () =>
    choice(
      map(sequence(list(subject, and), list(predicate, and)), ([subjects, predicates]) =>
        statements(subjects, predicates),
      ),
      never(subject, predicate),
    ),
  );

const plainPredicate = predicateOf('Place', spanFamilies);
/** What a place is or has, behind its verb. */
const afterVerb = (name: string, verb_: Verb): Parser<Predicate<Span>> =>
  rule(name, () => choice(...spanFamilies.flatMap(family => family.after(verb_))));
const afterBe = afterVerb('WhatAPlaceIs', be);
const afterHave = afterVerb('WhatItHas', have);
const having = rule('WhatAPlaceHas', () => choice(...spanFamilies.flatMap(family => family.having)));
const placePredicate = choice(plainPredicate, ordinalPredicate(plainPredicate, having));
/** `is V with a 9-8 suspension`, `is iv over a dominant pedal`: what the place has besides. */
const placePredicates: Parser<readonly Predicate<Span>[]> = rule('PlacePredicates', () =>
  map(
    sequence(
      list(placePredicate, andThat),
      optional(
        choice(
          map(sequence(word('with'), having), ([, has]) => has),
          map(sequence(word('over'), pedal), ([, says]) => pedalFamily.make(says)),
        ),
      ),
    ),
    ([predicates, has]) => (has === undefined ? predicates : [...predicates, has]),
  ),
);
const linePredicate = predicateOf('Line', lineFamilies);
const pairPredicate = predicateOf('Pair', pairFamilies);
const notePredicate = predicateOf('Note', noteFamilies);

/** The place behind what is said of something in it: `the bass rises by step in bars 1-3`. */
const placedAfter = <T, S>(
  name: string,
  of: Parser<T>,
  predicate: Parser<Predicate<S>>,
  subject: (of: T, place: Place) => Subject<S>,
): Parser<Claim> =>
  rule(`${name}SentenceWithPlaceAfter`, () =>
    map(
      sequence(of, optional(word('never')), list(predicate, and), atPlace),
      ([which, no, predicates, place]) =>
        statements([subject(which, place)], no === undefined ? predicates : predicates.map(negation)),
    ),
  );

/** `the alto and the tenor never cross`: of the piece, where no place is named. */
const ofWholePiece = <T, S>(
  name: string,
  of: Parser<T>,
  predicate: Parser<Predicate<S>>,
  subject: (of: T, place: Place) => Subject<S>,
): Parser<Claim> =>
  rule(`${name}SentenceOfThePiece`, () =>
    map(sequence(of, optional(word('never')), list(predicate, and)), ([which, no, predicates]) =>
      statements(
        [subject(which, { kind: 'piece' })],
        no === undefined ? predicates : predicates.map(negation),
      ),
    ),
  );

/**
 * `in bar 16 is a perfect cadence`, `in bar 8 we have a half cadence`, `from bar 9 to 16 we modulate to D major`. What is in a place is
 * something that the place has among others.
 */
const placeFirst: Parser<Claim> = rule('PlaceFirst', () =>
  choice(
    map(sequence(before, choice(be, verb('comes', 'come')), having), ([place, { negated }, has]) =>
      statement(span(place), denied(negated, has)),
    ),
    map(
      sequence(before, choice(word('we', 'you', 'one', 'it'), wholeMusic), list(placePredicate, and)),
      ([place, , predicates]) => statements([span(place)], predicates),
    ),
  ),
);

const thereIs = rule('ThereIs', () =>
  choice(
    map(word('there is', "there's", 'there are'), () => false),
    map(word('there is not', "there isn't", 'there are not', "there aren't"), () => true),
  ),
);
const denied = <S>(no: boolean, predicate: Predicate<S>): Predicate<S> =>
  no ? negation(predicate) : predicate;

/** `there is a suspension in bar 3`, `in bar 3 there is a suspension`. */
const thereSentence: Parser<Claim> = rule('ThereSentence', () =>
  choice(
    map(sequence(thereIs, having, scope), ([no, has, place]) => statement(span(place), denied(no, has))),
    map(sequence(before, thereIs, having), ([place, no, has]) => statement(span(place), denied(no, has))),
    // `there are suspensions in bars 3, 5 and 13`: in each of them.
    map(sequence(thereIs, having, word('in'), severalBars), ([no, has, , bars]) =>
      statements(bars, [denied(no, has)]),
    ),
    map(
      sequence(
        word('between'),
        pitchClassName,
        word('and'),
        pitchClassName,
        thereIs,
        soundingInterval,
        at,
        placeName,
      ),
      ([, a, , b, no, says, , place]) =>
        statement(span(place), denied(no, verticalIntervalFamily.make({ ...says, between: [a, b] }))),
    ),
    map(
      sequence(
        theTwoNotes,
        choice(be, verb('forms', 'form'), verb('makes', 'make')),
        soundingInterval,
        atPlace,
      ),
      ([between, { negated }, says, place]) =>
        statement(span(place), denied(negated, verticalIntervalFamily.make({ ...says, between }))),
    ),
    map(
      sequence(
        theTwoNotes,
        atPlace,
        choice(be, verb('forms', 'form'), verb('makes', 'make')),
        soundingInterval,
      ),
      ([between, place, { negated }, says]) =>
        statement(span(place), denied(negated, verticalIntervalFamily.make({ ...says, between }))),
    ),
    // `no parallel fifths in bars 1-8`: as a note to oneself, without a verb.
    map(sequence(word('no'), having, scope), ([, has, place]) => statement(span(place), denied(true, has))),
  ),
);

/** `half cadence in bar 8`, `PAC in D major, m. 16`: as a note to oneself, without a verb. */
const noteToOneself: Parser<Claim> = rule('NoteToOneself', () => {
  const named = choice(...nameableFamilies.flatMap(family => family.having));
  const comma = quiet(optional(mark(',')));
  return choice(
    map(sequence(named, atPlace), ([has, place]) => statement(span(place), has)),
    map(sequence(named, comma, placeName), ([has, , place]) => statement(span(place), has)),
    map(
      sequence(quiet(optional(thereIs)), aCadence, atPlace, comma, word('in'), anyKey),
      ([no, name, place, , , key]) =>
        statement(span(place), denied(no === true, cadenceFamily.make({ how: 'has', name, key }))),
    ),
  );
});

/** `the G and the E#`: two notes that sound together. */
const theTwoNotes = rule('TwoNotes', () =>
  map(
    sequence(
      quiet(optional(word('the'))),
      pitchClassName,
      word('and'),
      quiet(optional(word('the'))),
      pitchClassName,
    ),
    ([, a, , , b]): readonly [PitchClass, PitchClass] => [a, b],
  ),
);

const lineHaving = rule('WhatALineHas', () => choice(...lineFamilies.flatMap(family => family.having)));
/** `there's a 9-8 suspension in the alto in bar 4`. */
const thereInLine: Parser<Claim> = rule('ThereInLine', () =>
  map(sequence(thereIs, lineHaving, word('in'), lineName, scope), ([no, has, , line, place]) =>
    statement(lineSubject(line, place), denied(no, has)),
  ),
);

/** `the left hand of bar 4 plays D#, F#, A and B`: each of them. */
const lineHasNotes: Parser<Claim> = rule('LineHasNotes', () => {
  const note = map(sequence(quiet(optional(article)), noteName), ([, named]) => named);
  return map(
    sequence(lineSubjectName, choice(have, verb('plays', 'play')), note, and, list(note, and)),
    ([line, { negated }, first, , others]) =>
      statements(
        [line],
        [first, ...others].map(each => denied(negated, linePitchFamily.make({ how: 'has', note: each }))),
      ),
  );
});

const bassIs = (place: Place, note: NoteName, no: boolean): Claim =>
  statement(
    lineSubject({ kind: 'part', part: 'bass' }, place),
    denied(no, linePitchFamily.make({ how: 'is', note })),
  );

/** `key of bars 1-8 is B minor`: the nouns of one family. */
const aspectsOf = ({ name, aspects }: Family<Span>): Parser<Claim> =>
  rule(`${ruleName(name)}Aspect`, () =>
    choice(
      ...aspects.flatMap(({ noun, predicate }) => [
        map(sequence(before, quiet(optional(word('the'))), noun, predicate), ([place, , , says]) =>
          statement(span(place), says),
        ),
        map(sequence(noun, scope, optional(word('never')), predicate), ([, place, no, says]) =>
          statement(span(place), no === undefined ? says : negation(says)),
        ),
        map(sequence(noun, predicate, atPlace), ([, says, place]) => statement(span(place), says)),
      ]),
    ),
  );
/** `the key of bars 1-8 is B minor`, `the key is B minor`, `the figuration stays the same in bars 3-4`. */
const aspectSentence: Parser<Claim> = rule('AspectSentence', () =>
  map(
    sequence(
      quiet(optional(word('the'))),
      choice(...spanFamilies.filter(({ aspects }) => aspects.length > 0).map(aspectsOf)),
    ),
    ([, claim]) => claim,
  ),
);

/** `the melody ends on the tonic`, `the bass starts on D in bars 1-4`: the piece where no place is named. */
const edgeSentence: Parser<Claim> = rule('EdgeSentence', () => {
  const say = (line: LineName, place: Place, { how, negated }: Edge, says: Predicate<PointedNotes>): Claim =>
    statement(edgeNote(how === 'begins' ? 'first' : 'last', line, place), denied(negated, says));
  const degree = choice<Predicate<PointedNotes>>(
    map(degreeOfNote, says => noteDegreeFamily.make(says)),
    map(partOfChord, says => noteInChordFamily.make(says)),
  );
  const note = map(sequence(quiet(optional(article)), noteName), ([, named]) =>
    notePitchFamily.make({ note: named }),
  );
  return choice(
    map(sequence(lineName, scope, startsOrEnds, degree), ([line, place, edge, says]) =>
      say(line, place, edge, says),
    ),
    map(sequence(lineName, list(sequence(startsOrEnds, degree), and), scope), ([line, said, place]) =>
      conjunction(said.map(([edge, says]) => say(line, place, edge, says))),
    ),
    map(sequence(lineName, startsOrEnds, note), ([line, edge, says]) =>
      say(line, { kind: 'piece' }, edge, says),
    ),
  );
});

/** `bar 2 has E in the bass`, `E is in the bass in bar 2`, `E is the bass of bar 2`. */
const bassSentence: Parser<Claim> = rule('BassSentence', () =>
  choice(
    map(sequence(placeName, have, noteName, word('in the bass')), ([place, { negated }, note]) =>
      bassIs(place, note, negated),
    ),
    map(
      sequence(noteName, be, word('in the bass', 'the bass', 'the bass note'), at, placeName),
      ([note, { negated }, , , place]) => bassIs(place, note, negated),
    ),
  ),
);

/** `in D major, bar 12 is V65 and bar 13 is I`. */
const inKeySentence: Parser<Claim> = rule('InKeySentence', () =>
  map(
    sequence(word('in'), anyKey, quiet(optional(mark(','))), list(sequence(spanSubject, be, numeral), and)),
    ([, key, , said]) =>
      conjunction(
        said.map(([subject, { negated }, read]) =>
          statement(subject, denied(negated, numeralFamily.make({ numeral: read, key }))),
        ),
      ),
  ),
);

/** `bar 6 beat 1 is vi in Eb major and ii in Bb major`. */
const severalNumerals: Parser<Claim> = rule('SeveralNumerals', () =>
  map(
    sequence(
      spanSubject,
      be,
      list(sequence(numeral, word('in'), anyKey), choice(word('and'), quiet(mark(',', '=')))),
    ),
    ([subject, { negated }, said]) =>
      conjunction(
        said.map(([read, , key]) =>
          statement(subject, denied(negated, numeralFamily.make({ numeral: read, key }))),
        ),
      ),
  ),
);

/** `bar 3 has V65/V on beat 4`: the beat behind what is said of the bar there. */
const atBeat: Parser<Claim> = rule('AtBeat', () =>
  choice(
    map(sequence(oneBar, plainPredicate, word('on', 'at'), beatsNamed), ([bar, says, , beats]) =>
      statement(span({ kind: 'beats', bar, ...beats }), says),
    ),
    map(
      sequence(lineName, at, oneBar, linePredicate, word('on', 'at'), beatsNamed),
      ([line, , bar, says, , beats]) => statement(lineSubject(line, { kind: 'beats', bar, ...beats }), says),
    ),
  ),
);

/** `the F# pedal lasts from bar 21 to bar 24`. */
const pedalLasts: Parser<Claim> = rule('PedalLasts', () =>
  map(
    sequence(
      word('the'),
      pedal,
      choice(verb('lasts', 'last'), verb('runs', 'run'), verb('continues', 'continue'), be),
      quiet(optional(word('through'))),
      atPlace,
    ),
    ([, says, { negated }, , place]) => statement(span(place), denied(negated, pedalFamily.make(says))),
  ),
);

const placeSubjects = rule('PlaceSubjects', () => list(spanSubject, and));
/** A predicate whose verb is known, so that what follows may leave the verb out. */
const withVerb = (verb_: Verb, complement: Parser<Predicate<Span>>): Parser<Predicate<Span>> => ({
  shape: sequence(verb_, complement).shape,
  // Read as any predicate of the place is, which has been done at this place.
  read: (reading, at_) =>
    verb_.read(reading, at_).steps.length === 0 ? failed(reading, at_) : plainPredicate.read(reading, at_),
});
/** `bar 30 has E#, not F`, `bar 7 is a cadential six-four, not a tonic chord`. */
const contrast: Parser<Claim> = rule('Contrast', () =>
  map(
    choice(
      sequence(
        placeSubjects,
        withVerb(have, afterHave),
        quiet(optional(mark(','))),
        word('not', 'and not'),
        afterHave,
      ),
      sequence(
        placeSubjects,
        withVerb(be, afterBe),
        quiet(optional(mark(','))),
        word('not', 'and not'),
        afterBe,
      ),
    ),
    ([subjects, one, , , other]) => statements(subjects, [one, negation(other)]),
  ),
);

/** `bar 29 is the only Neapolitan`, `bars 7 and 31 are the only cadential six-fours`. */
const onlyOnes: Parser<Claim> = rule('OnlyOnes', () =>
  map(sequence(barList, choice(be, have), word('the only'), thing, scope), ([labels, , , of, place]) =>
    conjunction([
      thingOccurs(of, { kind: 'exactly', number: labels.length }, place),
      ...labels.map(label => thingOccurs(of, { kind: 'at least', number: 1 }, barNamed(label))),
    ]),
  ),
);

/** `all the soprano notes of bar 3 are crotchets`. */
const allNotesOfLine: Parser<Claim> = rule('AllNotesOfALine', () =>
  map(
    sequence(
      word('all', 'all the'),
      choice(
        map(sequence(lineNoun, word('notes')), ([line]) => line),
        map(sequence(word('notes of', 'notes in'), lineName), ([, line]) => line),
      ),
      scope,
      be,
      noteValue,
    ),
    ([, line, place, { negated }, value]) =>
      statement(
        lineSubject(line, place),
        denied(negated, lineRhythmFamily.make({ kind: 'value', only: true, value })),
      ),
  ),
);

/** `bar 15 has a 4-3 suspension in the soprano`: what the line of the place has. */
const inLineSentence: Parser<Claim> = rule('InLineSentence', () =>
  choice(
    // `bar 12 is I with a 4-3 suspension in the tenor`.
    map(
      sequence(placeName, list(placePredicate, and), word('with'), lineHaving, word('in'), lineName),
      ([place, predicates, , has, , line]) =>
        conjunction([statements([span(place)], predicates), statement(lineSubject(line, place), has)]),
    ),
    map(sequence(placeName, linePredicate, word('in'), lineName), ([place, says, , line]) =>
      statement(lineSubject(line, place), says),
    ),
    map(
      sequence(placeName, have, motionName, word('between', 'in'), twoLines),
      ([place, { negated }, kind, , [first, second]]) =>
        statement(pairSubject(first, second, place), denied(negated, motionFamily.make({ kind }))),
    ),
    map(sequence(placeName, have, aLament), ([place, { negated }, says]) =>
      statement(
        lineSubject({ kind: 'part', part: 'bass' }, place),
        denied(negated, melodicFamily.make(says)),
      ),
    ),
    map(
      sequence(
        placeName,
        have,
        quiet(optional(article)),
        rising,
        quiet(optional(word('chromatic'))),
        word('bass', 'bass line'),
      ),
      ([place, { negated }, , up]) =>
        statement(
          lineSubject({ kind: 'part', part: 'bass' }, place),
          denied(negated, melodicFamily.make({ kind: 'direction', up, manner: 'any' })),
        ),
    ),
  ),
);
const rising = wordsFor<boolean>([
  [true, 'rising', 'ascending'],
  [false, 'falling', 'descending'],
]);

/** `the outer voices have parallel octaves in bar 2`, `the alto crosses the soprano in bar 8`. */
const twoLinesSentence: Parser<Claim> = rule('TwoLinesSentence', () => {
  const parallels = (
    lines: readonly [LineName, LineName],
    no: boolean,
    says: ParallelsSays,
    place: Place,
  ): Claim => statement(span(place), denied(no, parallelsFamily.make({ ...says, lines })));
  const has = choice(
    map(have, ({ negated }) => negated),
    map(haveNo, () => true),
  );
  return choice(
    map(sequence(twoLines, has, parallelsName, at, placeName), ([lines, no, says, , place]) =>
      parallels(lines, no, says, place),
    ),
    map(sequence(twoLines, at, placeName, has, parallelsName), ([lines, , place, no, says]) =>
      parallels(lines, no, says, place),
    ),
    map(
      sequence(
        lineName,
        verb('crosses', 'cross'),
        quiet(optional(word('above', 'below', 'over', 'under'))),
        lineName,
        at,
        placeName,
      ),
      ([first, { negated }, , second, , place]) => {
        const [upper, lower] = rankOf(first) <= rankOf(second) ? [first, second] : [second, first];
        return statement(
          pairSubject(upper, lower, place),
          denied(negated, crossingFamily.make({ kind: 'cross' })),
        );
      },
    ),
  );
});
const ranks: readonly string[] = ['soprano', 'alto', 'tenor', 'bass'];
const rankOf = (line: LineName): number => (line.kind === 'part' ? ranks.indexOf(line.part) : 0);

const comesBack = choice(
  verb('returns', 'return'),
  verb('comes back', 'come back'),
  verb('reappears', 'reappear'),
  verb('recurs', 'recur'),
  map(word('is heard again', 'are heard again', 'comes again', 'come again'), () => ({ negated: false })),
);
const lineOrMusic: Parser<LineName | undefined> = choice<LineName | undefined>(
  map(word('melody', 'tune'), (): LineName => ({ kind: 'edge', edge: 'top' })),
  map(word('music', 'bars', 'measures', 'bar', 'measure'), () => undefined),
);
const sameAs = word('the same as in', 'the same as that of', 'the same as', 'like that of', 'like');
const barNamed = (label: string): Place => ({ kind: 'bars', first: label, last: label });
const firstBarOf = (place: Place): Place => (place.kind === 'bars' ? { ...place, last: place.first } : place);
/** The first bars of the piece, as many as a place has. */
const openingLike = (place: Place): Place => ({
  kind: 'first bars',
  count:
    place.kind === 'bars'
      ? Math.max(1, Number.parseInt(place.last, 10) - Number.parseInt(place.first, 10) + 1)
      : 1,
});

/** `bars 1-2 return in bars 5-6`, `bars 1-2 and bars 5-6 are the same`, `the melody of bars 5-6 repeats bars 1-2`. */
const returnSentence: Parser<Claim> = rule('ReturnSentence', () => {
  const repeats = (model: Place, copy: Place, no: boolean, line?: LineName, rhythm = false): Claim =>
    statement(
      span(copy),
      denied(
        no,
        recurrenceFamily.make({
          place: model,
          shift: { kind: 'none' },
          ...(line === undefined ? {} : { line }),
          ...(rhythm ? { rhythm: true } : {}),
        }),
      ),
    );
  return choice(
    map(sequence(placeName, comesBack, at, placeName), ([model, { negated }, , copy]) =>
      repeats(model, copy, negated),
    ),
    // As much of the opening as the place that is named has bars.
    map(
      sequence(word('the'), word('opening'), optional(lineOrMusic), comesBack, at, placeName),
      ([, , line, { negated }, , copy]) => repeats(openingLike(copy), copy, negated, line),
    ),
    map(
      sequence(
        placeName,
        choice(verb('begins', 'begin'), verb('starts', 'start'), verb('opens', 'open')),
        quiet(optional(word('in'))),
        choice(word('like'), word('the same way as', 'the same as'), word('as')),
        placeName,
      ),
      ([copy, { negated }, , , model]) => repeats(firstBarOf(model), firstBarOf(copy), negated),
    ),
    map(
      sequence(word('the rhythm of', 'the rhythm in'), placeName, be, sameAs, placeName),
      ([, copy, { negated }, , model]) => repeats(model, copy, negated, undefined, true),
    ),
    map(
      sequence(
        word('the rhythm of', 'the rhythm in'),
        placeName,
        word('and'),
        placeName,
        be,
        wordsFor<boolean>([
          [false, 'the same', 'identical', 'alike', 'equal'],
          [true, 'different'],
        ]),
      ),
      ([, model, , copy, { negated }, different]) =>
        repeats(model, copy, negated !== different, undefined, true),
    ),
    map(
      sequence(
        barList,
        be,
        quiet(optional(word('all', 'both'))),
        word('the same', 'identical', 'alike', 'equal'),
      ),
      ([labels, { negated }]) =>
        conjunction(
          labels.slice(1).map(label => repeats(barNamed(labels[0] ?? label), barNamed(label), negated)),
        ),
    ),
    map(
      sequence(
        choice<readonly (string | Place)[]>(
          barList,
          map(sequence(placeName, word('and'), placeName), ([a, , b]) => [a, b]),
        ),
        choice(be, have),
        word('the same chord', 'the same harmony', 'same chord', 'same harmony'),
      ),
      ([places, { negated }]) => {
        const [first, ...others] = places.map(each => (typeof each === 'string' ? barNamed(each) : each));
        return conjunction(
          others.map(other =>
            statement(
              span(other),
              denied(negated, chordRelationFamily.make({ relation: 'same', place: first ?? other })),
            ),
          ),
        );
      },
    ),
    // `bars 17-18 are repeated a step lower in bars 19-20`.
    map(
      sequence(
        quiet(optional(word('the model of', 'the model in', 'the pattern of', 'the music of'))),
        placeName,
        choice(
          map(
            sequence(be, word('repeated', 'restated', 'answered', 'imitated', 'heard again', 'copied')),
            ([is]) => is,
          ),
          comesBack,
        ),
        shift,
        at,
        placeName,
      ),
      ([, model, { negated }, moved, , copy]) =>
        statement(span(copy), denied(negated, recurrenceFamily.make({ place: model, shift: moved }))),
    ),
    map(
      sequence(placeName, word('and'), placeName, be, word('the same', 'identical', 'alike', 'equal')),
      ([model, , copy, { negated }]) => repeats(model, copy, negated),
    ),
    map(
      sequence(
        lineName,
        at,
        placeName,
        choice(
          verb('repeats', 'repeat'),
          map(sequence(be, word('the same as', 'identical to'), quiet(optional(word('in')))), ([is]) => is),
        ),
        placeName,
      ),
      ([line, , copy, { negated }, model]) => repeats(model, copy, negated, line),
    ),
  );
});

/** `C6 is the highest note of the piece`, `the melody peaks in bar 29`, `the range of the soprano in bar 1 is a third`. */
const registerSentence: Parser<Claim> = rule('RegisterSentence', () => {
  const peak = word(
    'reaches its highest note',
    'reaches its highest point',
    'reaches its high point',
    'reaches its peak',
    'peaks',
    'has its highest note',
  );
  return choice(
    map(
      sequence(
        noteName,
        be,
        word('the'),
        which,
        word('note', 'pitch'),
        optional(map(sequence(at, lineName), ([, line]) => line)),
        scope,
      ),
      ([note, { negated }, , edge, , line, place]) =>
        statement(extreme(edge, line, place), denied(negated, extremeFamily.make({ kind: 'pitch', note }))),
    ),
    map(
      sequence(
        lineName,
        peak,
        quiet(optional(mark(','))),
        optional(map(sequence(quiet(optional(word('on', 'at'))), noteName), ([, note]) => note)),
        quiet(optional(mark(','))),
        atPlace,
      ),
      ([line, , , note, , place]) =>
        statements(
          [extreme('highest', line, { kind: 'piece' })],
          [
            ...(note === undefined ? [] : [extremeFamily.make({ kind: 'pitch', note })]),
            extremeFamily.make({ kind: 'place', place }),
          ],
        ),
    ),
    map(
      sequence(word('the range of', 'the compass of'), lineName, scope, be, rangeSize),
      ([, line, place, { negated }, says]) =>
        statement(lineSubject(line, place), denied(negated, lineRangeFamily.make(says))),
    ),
  );
});

/** `the leap in bar 14 is filled in`: of the melody, where no line is named. */
const leapSentence: Parser<Claim> = rule('LeapSentence', () =>
  map(
    sequence(
      word('the leap'),
      quiet(optional(sequence(word('of', 'in'), lineName))),
      at,
      placeName,
      be,
      word('filled in', 'filled'),
    ),
    ([, , , place, { negated }]) =>
      statement(
        lineSubject({ kind: 'edge', edge: 'top' }, place),
        denied(negated, melodicFamily.make({ kind: 'gap fill' })),
      ),
  ),
);

/** `bar 29 contains a leap`: of the melody, where no line is named. */
const melodyHas: Parser<Claim> = rule('MelodyHas', () =>
  map(sequence(placeName, choice(have, haveNo), aLeap), ([place, { negated }, says]) =>
    statement(lineSubject({ kind: 'edge', edge: 'top' }, place), denied(negated, melodicFamily.make(says))),
  ),
);

/** `the tonic key returns in bar 21`. */
const keyReturns: Parser<Claim> = rule('KeyReturns', () =>
  map(
    sequence(word('the'), word('tonic key', 'home key', 'original key'), comesBack, at, placeName),
    ([, , { negated }, , place]) =>
      statement(span(place), denied(negated, keyFamily.make({ what: 'is in', key: { relation: 'tonic' } }))),
  ),
);

/** `the waltz begins and ends in B minor`. */
const beginsAndEndsIn: Parser<Claim> = rule('BeginsAndEndsIn', () =>
  map(
    sequence(
      placeSubjects,
      word('begins and ends in', 'begin and end in', 'starts and ends in', 'start and end in'),
      anyKey,
    ),
    ([subjects, , key]) =>
      statements(
        subjects,
        (['begins in', 'ends in'] as const).map(what => keyFamily.make({ what, key })),
      ),
  ),
);

/** `E# and F natural are enharmonically equivalent`. */
const enharmonicTones: Parser<Claim> = rule('EnharmonicTones', () =>
  map(
    sequence(
      noteSubject,
      word('and'),
      pitchClassName,
      be,
      word('enharmonically equivalent', 'enharmonic equivalents', 'enharmonic', 'enharmonically the same'),
    ),
    ([subject, , tone, { negated }]) =>
      statement(subject, denied(negated, toneFamily.make({ kind: 'twin', tone }))),
  ),
);

/** `E minor is tonicized in bars 4-5`. */
const keyTonicized: Parser<Claim> = rule('KeyTonicized', () =>
  map(sequence(keyReference, be, word('tonicized', 'tonicised'), scope), ([key, { negated }, , place]) =>
    statement(span(place), denied(negated, keyFamily.make({ what: 'tonicizes', key }))),
  ),
);

/** `the music has modulated to D major by bar 16`: from the beginning to there. */
const modulatedBy: Parser<Claim> = rule('ModulatedBy', () =>
  map(
    sequence(
      wholeMusic,
      choice(verb('modulates to', 'modulate to'), verb('has modulated to', 'have modulated to')),
      anyKey,
      word('by'),
      oneBar,
    ),
    ([, { negated }, key, , last]) =>
      statement(
        span({ kind: 'bars', first: '1', last }),
        denied(negated, keyFamily.make({ what: 'modulates to', key })),
      ),
  ),
);

/** `bars 17-20 are a descending fifths sequence`: a model that is repeated, over roots that fall by fifths. */
const fifthsSequence: Parser<Claim> = rule('FifthsSequence', () =>
  map(
    choice(
      map(
        sequence(spanSubject, choice(be, have), aFifthsSequence),
        ([subject, verb_]) => [subject, verb_] as const,
      ),
      map(
        sequence(thereIs, aFifthsSequence, scope),
        ([no, , place]) => [span(place), { negated: no }] as const,
      ),
      map(
        sequence(before, thereIs, aFifthsSequence),
        ([place, no]) => [span(place), { negated: no }] as const,
      ),
    ),
    ([subject, { negated }]) => {
      const fifths = progressionFamily.make({ kind: 'fifths' });
      return negated
        ? statement(subject, negation(fifths))
        : statements([subject], [sequenceFamily.make({}), fifths]);
    },
  ),
);
const aFifthsSequence = sequence(
  quiet(optional(article)),
  choice<unknown>(
    sequence(quiet(optional(word('descending', 'falling'))), word('fifths', 'fifth'), word('sequence')),
    sequence(word('sequence of'), quiet(optional(word('descending', 'falling'))), word('fifths')),
  ),
);

/** `only bar 29 has C natural`. */
const onlySentence: Parser<Claim> = rule('OnlySentence', () =>
  map(sequence(word('only'), spanSubject, plainPredicate), ([, subject, of]) =>
    statement(subject, ordinal({ which: 'only', unit: 'bar', place: { kind: 'piece' } }, of)),
  ),
);

/** The music as such, where its place follows: `the piece modulates to D major in bars 9-16`. */
const wholeMusic = choice(
  map(sequence(word('the'), wholePiece), () => undefined),
  map(word('we', 'it'), () => undefined),
);

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
    about('Note', choice(pointedNotes, memberName, edgeNoteName, embellishmentName), notePredicate),
    placedAfter('Note', pointedName, notePredicate, ({ name, line }, place) => pointed(name, line, place)),
    placedAfter('Member', member, notePredicate, (named, place) => memberNotes(named, place)),
    map(sequence(before, pointedName, list(notePredicate, and)), ([place, { name, line }, predicates]) =>
      statements([pointed(name, line, place)], predicates),
    ),
    about('Chord', chordSubject, placePredicate),
    // `V42 resolves to I6 in bar 9`.
    placedAfter('Chord', pointedChord, placePredicate, chordIn),
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
    isThere,
    inLineSentence,
    twoLinesSentence,
    returnSentence,
    registerSentence,
    leapSentence,
    melodyHas,
    keyReturns,
    keyTonicized,
    beginsAndEndsIn,
    enharmonicTones,
    modulatedBy,
    relatedKeys,
    severalNumerals,
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
    quantifiedSentence(plainPredicate),
  ),
);

const sentence: Parser<Claim> = rule('Sentence', () =>
  choice(
    plainSentence,
    versionSentence(() => plainSentence),
    // After the versions, of which `only bar 8 differs` is said.
    onlySentence,
  ),
);

const allSentences = map(list(sentence, between), conjunction);

const quote = quiet(optional(mark('“', '”', '"', '„', '«', '»', '‘', '’', "'")));
const stop = quiet(optional(mark('.')));
/** With or without a full stop, and in the quotation marks of a word processor. */
const whole = (of: Parser<Claim>): Parser<Claim> =>
  map(sequence(quote, of, stop, quote, stop, end), ([, all]) => all);
/** A whole claim: one sentence or several. What can be checked is checked, also where a quotation mark is part of it. */
export const claim: Parser<Claim> = rule('Claim', () => choice(whole(allSentences), whole(opinionSentence)));
