import { conjunction } from './conjunction.js';
import type { Claim, Predicate, Subject } from './claim.js';
import type { Family } from './family.js';
import { choice, end, list, map, mark, optional, quiet, rule, sequence, word } from './grammar/index.js';
import type { Parser } from './grammar/index.js';
import { lineFamilies, spanFamilies } from './families/index.js';
import { lineSubjectName } from './subjects/line.js';
import { spanSubject } from './subjects/span.js';
import { statements } from './statement.js';

const and = choice(
  quiet(map(sequence(mark(','), optional(word('and', 'but'))), () => undefined)),
  map(word('and', 'but'), () => undefined),
);
const between = choice(quiet(map(sequence(mark(';'), optional(word('and'))), () => undefined)), and);

/** `bar 3 and bar 5 are V7/V and have F#`: every predicate is said of every subject. */
function about<S>(name: string, subject: Parser<Subject<S>>, families: readonly Family<S>[]): Parser<Claim> {
  const predicate: Parser<Predicate<S>> = rule(`${name}Predicate`, () =>
    choice(...families.map(family => family.predicate)),
  );
  return rule(`${name}Sentence`, () =>
    map(sequence(list(subject, and), list(predicate, and)), ([subjects, predicates]) =>
      statements(subjects, predicates),
    ),
  );
}

const sentence: Parser<Claim> = choice(
  about('Place', spanSubject, spanFamilies),
  about('Line', lineSubjectName, lineFamilies),
);

/** A whole claim: one sentence or several, with or without a full stop. */
export const claim: Parser<Claim> = rule('Claim', () =>
  map(sequence(list(sentence, between), quiet(optional(mark('.'))), end), ([parts]) => conjunction(parts)),
);
