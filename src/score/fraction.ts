/**
 * An exact rational in lowest terms, denominator positive; for times and durations in whole notes.
 * Plain data rather than a class of a library, so that a score survives JSON, structured clone and workers unchanged.
 */
export interface Fraction {
  readonly n: number;
  readonly d: number;
}

function greatestCommonDivisor(a: number, b: number): number {
  let x = Math.abs(a);
  let y = Math.abs(b);
  while (y !== 0) [x, y] = [y, x % y];
  return x;
}

/** `n / d` in lowest terms. Throws a RangeError when the value cannot be held exactly. */
export function fraction(n: number, d = 1): Fraction {
  if (!Number.isSafeInteger(n) || !Number.isSafeInteger(d) || d === 0)
    throw new RangeError(`not an exact fraction: ${n}/${d}`);
  const by = greatestCommonDivisor(n, d) * (d < 0 ? -1 : 1);
  return by === 0 ? zero : { n: n / by + 0, d: d / by };
}

export const zero: Fraction = { n: 0, d: 1 };
export const one: Fraction = { n: 1, d: 1 };

export const add = (a: Fraction, b: Fraction): Fraction => fraction(a.n * b.d + b.n * a.d, a.d * b.d);
export const subtract = (a: Fraction, b: Fraction): Fraction => fraction(a.n * b.d - b.n * a.d, a.d * b.d);
export const multiply = (a: Fraction, b: Fraction): Fraction => fraction(a.n * b.n, a.d * b.d);
export const divide = (a: Fraction, b: Fraction): Fraction => fraction(a.n * b.d, a.d * b.n);
/** Negative, zero or positive, as for `Array.sort`. */
export const compare = (a: Fraction, b: Fraction): number => a.n * b.d - b.n * a.d;
export const equals = (a: Fraction, b: Fraction): boolean => a.n === b.n && a.d === b.d;
export const isBefore = (a: Fraction, b: Fraction): boolean => compare(a, b) < 0;
export const least = (a: Fraction, b: Fraction): Fraction => (compare(a, b) <= 0 ? a : b);
export const greatest = (a: Fraction, b: Fraction): Fraction => (compare(a, b) >= 0 ? a : b);
export const toNumber = (a: Fraction): number => a.n / a.d;
/** `3/8`, or `2` for a whole number. */
export const printFraction = (a: Fraction): string => (a.d === 1 ? String(a.n) : `${a.n}/${a.d}`);

/** The fraction that a decimal such as 2.3333 stands for, with a denominator of at most `limit` (continued fractions). */
export function fromDecimal(value: number, limit = 96): Fraction {
  let [lowN, lowD, highN, highD] = [0, 1, 1, 0];
  let rest = value;
  for (;;) {
    const whole = Math.floor(rest);
    const n = whole * highN + lowN;
    const d = whole * highD + lowD;
    if (d > limit) break;
    [lowN, lowD, highN, highD] = [highN, highD, n, d];
    if (Math.abs(rest - whole) < 1e-6) break;
    rest = 1 / (rest - whole);
  }
  return fraction(highN, highD);
}
