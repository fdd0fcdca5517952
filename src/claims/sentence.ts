import { chosenThing, firstAppearance, isThere, thereAreSo, thingSubject } from './families/occurrence.js';
import { crossingFamily } from './families/crossing.js';
import { melodicFamily } from './families/melodic.js';
import { motionFamily, motionName } from './families/motion.js';
import { parallelsFamily, parallelsName } from './families/parallels.js';
import type { ParallelsSays } from './families/parallels.js';
import { recurrenceFamily } from './families/recurrence.js';
import { extremeFamily, lineRangeFamily, rangeSize } from './families/register.js';
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
import { ordinalPredicate } from './quantity/ordinal.js';
import { quantifiedSentence } from './quantity/quantified.js';
import { at, before, placeName, scope } from './place/place-name.js';
import type { Place } from './place/place.js';
import { statement, statements } from './statement.js';
import { noteSubject, tonePairSubject } from './families/pitch-relation.js';
import { embellishmentName } from './subjects/embellishment.js';
import { edgeNoteName } from './subjects/edge-note.js';
import { extreme, extremeName, which } from './subjects/extreme.js';
import { chordSubject } from './subjects/chord-subject.js';
import { lineSubject, lineSubjectName } from './subjects/line.js';
import { lineName } from './subjects/line-name.js';
import type { LineName } from './subjects/line-name.js';
import { edgeNote } from './subjects/edge-note.js';
import { linePitchFamily } from './families/line-pitch.js';
import { notePitchFamily } from './families/note-pitch.js';
import { numeralFamily } from './families/numeral.js';
import { degreeOfNote, noteDegreeFamily } from './families/scale-degree.js';
import type { PointedNotes } from './subjects/note.js';
import { article } from './terms/chord-name.js';
import { keyName } from './terms/key-name.js';
import { noteName } from './terms/note-name.js';
import type { NoteName } from './terms/note-name.js';
import { numeral } from './terms/numeral.js';
import { be, have, haveNo, startsOrEnds, verb } from './terms/verb.js';
import type { Edge } from './terms/verb.js';
import { memberName } from './subjects/member.js';
import { pointed, pointedName, pointedNotes } from './subjects/note.js';
import { pairSubject, pairSubjectName, twoLines } from './subjects/pair.js';
import { severalBars, span, spanSubject } from './subjects/span.js';
import { versionSentence } from './versions/version-claims.js';

const and = rule('And', () =>
  choice(
    quiet(map(sequence(mark(','), optional(word('and', 'but'))), () => undefined)),
    map(word('and', 'but'), () => undefined),
  ),
);
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
      ...(name === 'Place' ? [] : [never(subject, predicate)]),
    ),
  );

const plainPredicate = predicateOf('Place', spanFamilies);
const having = rule('WhatAPlaceHas', () => choice(...spanFamilies.flatMap(family => family.having)));
const placePredicate = choice(plainPredicate, ordinalPredicate(plainPredicate, having));
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
    map(sequence(of, list(predicate, and), at, placeName), ([which, predicates, , place]) =>
      statements([subject(which, place)], predicates),
    ),
  );

/** `in bar 16 is a perfect cadence`, `in bar 8 we have a half cadence`, `from bar 9 to 16 we modulate to D major`. */
const placeFirst: Parser<Claim> = rule('PlaceFirst', () =>
  map(
    sequence(
      before,
      quiet(optional(word('we', 'you', 'one', 'the piece', 'the music', 'it'))),
      list(placePredicate, and),
    ),
    ([place, , predicates]) => statements([span(place)], predicates),
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
  ),
);

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
        map(sequence(noun, scope, predicate), ([, place, says]) => statement(span(place), says)),
        map(sequence(noun, predicate, at, placeName), ([, says, , place]) => statement(span(place), says)),
      ]),
    ),
  );
/** `the key of bars 1-8 is B minor`, `the key is B minor`, `the figuration stays the same in bars 3-4`. */
const aspectSentence: Parser<Claim> = rule('AspectSentence', () =>
  map(
    sequence(word('the'), choice(...spanFamilies.filter(({ aspects }) => aspects.length > 0).map(aspectsOf))),
    ([, claim]) => claim,
  ),
);

/** `the melody ends on the tonic`, `the bass starts on D in bars 1-4`: the piece where no place is named. */
const edgeSentence: Parser<Claim> = rule('EdgeSentence', () => {
  const say = (line: LineName, place: Place, { how, negated }: Edge, says: Predicate<PointedNotes>): Claim =>
    statement(edgeNote(how === 'begins' ? 'first' : 'last', line, place), denied(negated, says));
  const degree = map(degreeOfNote, says => noteDegreeFamily.make(says));
  const note = map(sequence(quiet(optional(article)), noteName), ([, named]) =>
    notePitchFamily.make({ note: named }),
  );
  return choice(
    map(sequence(lineName, scope, startsOrEnds, degree), ([line, place, edge, says]) =>
      say(line, place, edge, says),
    ),
    map(sequence(lineName, startsOrEnds, degree, scope), ([line, edge, says, place]) =>
      say(line, place, edge, says),
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
    sequence(word('in'), keyName, quiet(optional(mark(','))), list(sequence(spanSubject, be, numeral), and)),
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
    sequence(spanSubject, be, list(sequence(numeral, word('in'), keyName), word('and'))),
    ([subject, { negated }, said]) =>
      conjunction(
        said.map(([read, , key]) =>
          statement(subject, denied(negated, numeralFamily.make({ numeral: read, key }))),
        ),
      ),
  ),
);

/** `bar 15 has a 4-3 suspension in the soprano`: what the line of the place has. */
const inLineSentence: Parser<Claim> = rule('InLineSentence', () =>
  choice(
    map(sequence(placeName, linePredicate, word('in'), lineName), ([place, says, , line]) =>
      statement(lineSubject(line, place), says),
    ),
    map(
      sequence(placeName, have, motionName, word('between', 'in'), twoLines),
      ([place, { negated }, kind, , [first, second]]) =>
        statement(pairSubject(first, second, place), denied(negated, motionFamily.make({ kind }))),
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

/** `bars 1-2 return in bars 5-6`, `bars 1-2 and bars 5-6 are the same`, `the melody of bars 5-6 repeats bars 1-2`. */
const returnSentence: Parser<Claim> = rule('ReturnSentence', () => {
  const repeats = (model: Place, copy: Place, no: boolean, line?: LineName): Claim =>
    statement(
      span(copy),
      denied(
        no,
        recurrenceFamily.make({
          place: model,
          shift: { kind: 'none' },
          ...(line === undefined ? {} : { line }),
        }),
      ),
    );
  return choice(
    map(
      sequence(placeName, choice(verb('returns', 'return'), verb('comes back', 'come back')), at, placeName),
      ([model, { negated }, , copy]) => repeats(model, copy, negated),
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
    map(sequence(lineName, peak, at, placeName), ([line, , , place]) =>
      statement(extreme('highest', line, { kind: 'piece' }), extremeFamily.make({ kind: 'place', place })),
    ),
    map(
      sequence(word('the range of', 'the compass of'), lineName, scope, be, rangeSize),
      ([, line, place, { negated }, says]) =>
        statement(lineSubject(line, place), denied(negated, lineRangeFamily.make(says))),
    ),
  );
});

/** The music as such, where its place follows: `the piece modulates to D major in bars 9-16`. */
const wholeMusic = word('the piece', 'the music', 'we', 'it');

/** Sentences that can be checked. */
export const plainSentence: Parser<Claim> = rule('PlainSentence', () =>
  choice(
    about('Place', spanSubject, placePredicate),
    placedAfter('Place', wholeMusic, placePredicate, (_, place) => span(place)),
    map(sequence(severalBars, list(placePredicate, and)), ([subjects, predicates]) =>
      statements(subjects, predicates),
    ),
    about('Line', lineSubjectName, linePredicate),
    placedAfter('Line', lineName, linePredicate, lineSubject),
    about('Pair', pairSubjectName, pairPredicate),
    placedAfter('Pair', twoLines, pairPredicate, ([first, second], place) =>
      pairSubject(first, second, place),
    ),
    about('Note', choice(pointedNotes, memberName, edgeNoteName, embellishmentName), notePredicate),
    placedAfter('Note', pointedName, notePredicate, (name, place) => pointed(name, undefined, place)),
    about('Chord', chordSubject, placePredicate),
    about('Extreme', extremeName, predicateOf('Extreme', extremeFamilies)),
    about('Thing', thingSubject, predicateOf('Thing', thingFamilies)),
    about('Chosen', chosenThing, predicateOf('Chosen', chosenFamilies)),
    about('Ranked', rankedSubject, predicateOf('Ranked', rankedFamilies)),
    about('Tone', noteSubject, predicateOf('Tone', toneFamilies)),
    about('TonePair', tonePairSubject, predicateOf('TonePair', tonePairFamilies)),
    about('Key', keySubject, predicateOf('Key', keyFamilies)),
    firstAppearance,
    thereAreSo,
    isThere,
    inLineSentence,
    twoLinesSentence,
    returnSentence,
    registerSentence,
    relatedKeys,
    severalNumerals,
    thereSentence,
    placeFirst,
    aspectSentence,
    edgeSentence,
    bassSentence,
    inKeySentence,
    quantifiedSentence(plainPredicate),
  ),
);

const sentence: Parser<Claim> = rule('Sentence', () =>
  choice(
    plainSentence,
    versionSentence(() => plainSentence),
  ),
);

const allSentences = map(list(sentence, between), conjunction);

const quote = quiet(optional(mark('“', '”', '"', '„', '«', '»', '‘', '’', "'")));
const stop = quiet(optional(mark('.')));
/** A whole claim: one sentence or several, with or without a full stop, and in the quotation marks of a word processor. */
export const claim: Parser<Claim> = rule('Claim', () =>
  map(sequence(quote, choice(allSentences, opinionSentence), stop, quote, stop, end), ([, all]) => all),
);
