import { fraction, fromDecimal } from '../../score/index.js';
import type { Fraction } from '../../score/index.js';
import { choice, rule, shapes, token, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';

const { character, inOrder, maybe, oneOf, oneOrMore, text } = shapes;
const digits = oneOrMore(character('0-9'));
const denominator = inOrder(character('1-9'), maybe(digits));

const words: readonly (readonly [number, string, ...string[]])[] = [
  [1, 'one'],
  [2, 'two'],
  [3, 'three'],
  [4, 'four'],
  [5, 'five'],
  [6, 'six'],
  [7, 'seven'],
  [8, 'eight'],
  [9, 'nine'],
  [10, 'ten'],
  [11, 'eleven'],
  [12, 'twelve'],
];

/** The largest count that is read: keeps every number exact. */
const largest = 99_999;

const digitsOnly: Parser<number> = token({
  name: 'Number',
  label: 'a number',
  shape: digits,
  value: matched => (Number(matched) <= largest ? Number(matched) : undefined),
});

/** `4` or `four`. */
export const count: Parser<number> = rule('Count', () => choice(digitsOnly, wordsFor(words)));

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
