import type { Predicate } from '../claim.js';
import { choice, map, mark, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import { negation } from '../negation.js';

export const and = rule('And', () =>
  choice(
    quiet(map(sequence(mark(','), optional(word('and', 'but'))), () => undefined)),
    map(word('and', 'but'), () => undefined),
  ),
);

/** `a secondary dominant that resolves to iv`. */
export const andThat = choice(
  and,
  quiet(map(word('that', 'which', 'and which', 'and that'), () => undefined)),
);

export const between = rule('Between', () =>
  choice(quiet(map(sequence(mark(';'), optional(word('and'))), () => undefined)), and),
);

export const denied = <S>(no: boolean, predicate: Predicate<S>): Predicate<S> =>
  no ? negation(predicate) : predicate;
