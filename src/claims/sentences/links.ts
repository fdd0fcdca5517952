import type { Predicate } from '../claim.js';
import { choice, failed, map, mark, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
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

const joint = /,|(?<!\p{L})(?:and|but|nor)(?!\p{L})/iu;
/** A sentence in which something is joined, tried only where a joint follows: without one it would build much of the grammar for nothing. */
export const joined = <T>(parser: Parser<T>): Parser<T> => ({
  shape: parser.shape,
  read: (reading, at) =>
    reading.tracing || joint.test(reading.text.slice(at)) ? parser.read(reading, at) : failed(reading, at),
});

export const between = rule('Between', () =>
  choice(quiet(map(sequence(mark(';'), optional(word('and'))), () => undefined)), and),
);

export const denied = <S>(no: boolean, predicate: Predicate<S>): Predicate<S> =>
  no ? negation(predicate) : predicate;
