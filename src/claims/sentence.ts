import { conjunction } from './conjunction.js';
import type { Claim, Predicate, Subject } from './claim.js';
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
} from './families/index.js';
import { keySubject } from './families/key-relation.js';
import { chosenThing, thingSubject } from './families/occurrence.js';
import { rankedSubject } from './families/frequency.js';
import { choice, end, list, map, mark, optional, quiet, rule, sequence, word } from './grammar/index.js';
import type { Parser } from './grammar/index.js';
import { opinionSentence } from './opinion.js';
import { ordinalPredicate } from './quantity/ordinal.js';
import { quantifiedSentence } from './quantity/quantified.js';
import { statements } from './statement.js';
import { extremeName } from './subjects/extreme.js';
import { lineSubjectName } from './subjects/line.js';
import { memberName } from './subjects/member.js';
import { pointedNotes } from './subjects/note.js';
import { pairSubjectName } from './subjects/pair.js';
import { spanSubject } from './subjects/span.js';
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

/** `bar 3 and bar 5 are V7/V and have F#`: every predicate is said of every subject. */
const about = <S>(
  name: string,
  subject: Parser<Subject<S>>,
  predicate: Parser<Predicate<S>>,
): Parser<Claim> =>
  rule(`${name}Sentence`, () =>
    map(sequence(list(subject, and), list(predicate, and)), ([subjects, predicates]) =>
      statements(subjects, predicates),
    ),
  );

const plainPredicate = predicateOf('Place', spanFamilies);
const placePredicate = choice(plainPredicate, ordinalPredicate(plainPredicate));

/** Sentences that can be checked. */
export const plainSentence: Parser<Claim> = rule('PlainSentence', () =>
  choice(
    about('Place', spanSubject, placePredicate),
    about('Line', lineSubjectName, predicateOf('Line', lineFamilies)),
    about('Pair', pairSubjectName, predicateOf('Pair', pairFamilies)),
    about('Note', choice(pointedNotes, memberName), predicateOf('Note', noteFamilies)),
    about('Extreme', extremeName, predicateOf('Extreme', extremeFamilies)),
    about('Thing', thingSubject, predicateOf('Thing', thingFamilies)),
    about('Chosen', chosenThing, predicateOf('Chosen', chosenFamilies)),
    about('Ranked', rankedSubject, predicateOf('Ranked', rankedFamilies)),
    about('Key', keySubject, predicateOf('Key', keyFamilies)),
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

/** A whole claim: one sentence or several, with or without a full stop. */
export const claim: Parser<Claim> = rule('Claim', () =>
  map(sequence(choice(allSentences, opinionSentence), quiet(optional(mark('.'))), end), ([all]) => all),
);
