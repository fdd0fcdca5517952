import { fraction, fromDecimal } from '../../score/index.js';
import type { Fraction } from '../../score/index.js';
import {
  choice,
  map,
  mark,
  optional,
  quiet,
  rule,
  sequence,
  shapes,
  token,
  wordsFor,
} from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';

const { character, inOrder, maybe, oneOf, oneOrMore, text } = shapes;
const digits = oneOrMore(character('0-9'));
const denominator = inOrder(character('1-9'), maybe(digits));

const ones: readonly (readonly [number, string])[] = [
  [1, 'one'],
  [2, 'two'],
  [3, 'three'],
  [4, 'four'],
  [5, 'five'],
  [6, 'six'],
  [7, 'seven'],
  [8, 'eight'],
  [9, 'nine'],
];
const teens: readonly (readonly [number, string])[] = [
  [10, 'ten'],
  [11, 'eleven'],
  [12, 'twelve'],
  [13, 'thirteen'],
  [14, 'fourteen'],
  [15, 'fifteen'],
  [16, 'sixteen'],
  [17, 'seventeen'],
  [18, 'eighteen'],
  [19, 'nineteen'],
];
const tens: readonly (readonly [number, string])[] = [
  [20, 'twenty'],
  [30, 'thirty'],
  [40, 'forty'],
  [50, 'fifty'],
  [60, 'sixty'],
  [70, 'seventy'],
  [80, 'eighty'],
  [90, 'ninety'],
];
/** `one` to `ninety-nine`. */
export const numberInWords: Parser<number> = rule(
  'NumberInWords',
  () =>
    choice(
      wordsFor([...ones, ...teens]),
      map(
        sequence(
          wordsFor(tens),
          optional(map(sequence(quiet(optional(mark('-'))), wordsFor(ones)), ([, one]) => one)),
        ),
        ([ten, one]) => ten + (one ?? 0),
      ),
    ),
  'a number in words such as `four`',
);

/** The largest count that is read: keeps every number exact. */
const largest = 99_999;

const digitsOnly: Parser<number> = token({
  name: 'Number',
  label: 'a number',
  shape: digits,
  value: matched => (Number(matched) <= largest ? Number(matched) : undefined),
});

/** `4` or `four`. */
export const count: Parser<number> = rule(
  'Count',
  () => choice(digitsOnly, quiet(numberInWords)),
  'a number',
);

/** `times` as said: `once`, `twice`, `3 times`. */
export const sayTimes = (times: number): string =>
  times === 1 ? 'once' : times === 2 ? 'twice' : `${times} times`;

const exact = (n: number, d: number): Fraction | undefined =>
  n <= largest && d > 0 && d <= largest ? fraction(n, d) : undefined;

/** A beat: `3`, `2.5`, `1.6667` (taken as 1 2/3), `2 1/2`. */
export const beatNumber: Parser<Fraction> = token({
  name: 'Beat',
  label: 'a beat such as `3` or `2.5`',
  shape: oneOf(
    inOrder(digits, text(' '), digits, text('/'), denominator),
    inOrder(digits, maybe(inOrder(text('.'), digits))),
  ),
  value: matched => {
    const mixed = /^(\d+) (\d+)\/(\d+)$/u.exec(matched);
    if (mixed !== null) {
      const [whole, n, d] = [Number(mixed[1]), Number(mixed[2]), Number(mixed[3])];
      return exact(whole * d + n, d);
    }
    const value = Number(matched);
    return value <= largest ? fromDecimal(value) : undefined;
  },
});

/** The shortest form that is read back as the same beat: `3`, `2.5`, `1 2/3`. */
export function printBeat(beat: Fraction): string {
  if (beat.d === 1) return String(beat.n);
  if (beat.d <= 96 && 10_000 % beat.d === 0) return String(beat.n / beat.d);
  const whole = Math.floor(beat.n / beat.d);
  return `${whole} ${beat.n - whole * beat.d}/${beat.d}`;
}

/** A number of things that are more than one. */
export const several: Parser<number> = choice(
  token({
    name: 'NumberOfSeveral',
    label: 'a number that is not 1',
    shape: oneOf(inOrder(character('1-9'), digits), character('02-9')),
    value: matched => (Number(matched) <= largest ? Number(matched) : undefined),
  }),
  wordsFor([...ones.slice(1), ...teens]),
);
