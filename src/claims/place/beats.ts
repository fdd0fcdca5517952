import { add, compare, divide, fraction, isCompound, multiply, one, subtract } from '../../score/index.js';
import type { Bar, Fraction, Meter, Score } from '../../score/index.js';

/** Note value of one beat: the lesson's own, or the metre's: a dotted unit in compound metre, its lower number otherwise. */
export const beatUnitOf = (meter: Meter, own: Fraction | undefined): Fraction =>
  own ?? (isCompound(meter) ? fraction(3, meter.unit) : fraction(1, meter.unit));

/** Onset of a beat of a bar, whether or not the bar is that long. */
export const onsetOfBeat = (bar: Bar, beat: Fraction, unit: Fraction): Fraction =>
  add(bar.start, subtract(multiply(subtract(beat, one), unit), bar.startsAt));

/** The beat at a moment of a bar, 1-based. */
export const beatAt = (bar: Bar, onset: Fraction, unit: Fraction): Fraction =>
  add(one, divide(add(subtract(onset, bar.start), bar.startsAt), unit));

export const endOf = (bar: Bar): Fraction => add(bar.start, bar.length);

/** The bar in which a moment lies; the last bar for the end of the piece. */
export function barAt(score: Score, onset: Fraction): Bar | undefined {
  let low = 0;
  let high = score.bars.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    const bar = score.bars[middle];
    if (bar !== undefined && compare(bar.start, onset) <= 0) low = middle;
    else high = middle - 1;
  }
  return score.bars[low];
}

/** Bar label and beat of a moment. */
export function momentOf(
  score: Score,
  onset: Fraction,
  own: Fraction | undefined,
): { readonly bar: string; readonly beat: Fraction } | undefined {
  const bar = barAt(score, onset);
  return bar === undefined
    ? undefined
    : { bar: bar.label, beat: beatAt(bar, onset, beatUnitOf(bar.meter, own)) };
}
