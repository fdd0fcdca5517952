import {
  add,
  compare,
  divide,
  equals,
  fraction,
  isBefore,
  multiply,
  one,
  subtract,
  zero,
  type Fraction,
} from './fraction.js';
import { groupsOf, isCompound } from './meter.js';
import type { Bar, Meter, Score } from './model.js';

/** A moment of the score as musicians name it. */
export interface MetricalPlace {
  /** Printed number of the bar. */
  readonly bar: number;
  /** The number with the letter of its ending. */
  readonly label: string;
  /** Index into `Score.bars`. */
  readonly index: number;
  /** 1-based and metrical: a pickup of one quarter in 4/4 is beat 4. A fraction between the beats. */
  readonly beat: Fraction;
}

/** The note value of the beat in whole notes: the dotted unit in compound metre, else the unit (common practice). */
export const beatUnitOf = (meter: Meter): Fraction => fraction(isCompound(meter) ? 3 : 1, meter.unit);

/** The bar that holds a moment; the first or last bar for moments outside the score, `undefined` where there are no bars. */
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

/** Whole notes from the metrical start of the bar, which lies before the first note of a pickup. */
const positionIn = (bar: Bar, onset: Fraction): Fraction => add(bar.startsAt, subtract(onset, bar.start));

/**
 * Bar and beat of a moment, in whole notes from the start of the written score. `beatUnit` is a note value in whole notes;
 * without it the beat is that of the metre. `undefined` where the score has no bars.
 */
export function placeAt(score: Score, onset: Fraction, beatUnit?: Fraction): MetricalPlace | undefined {
  const bar = barAt(score, onset);
  if (bar === undefined) return undefined;
  const beat = add(one, divide(positionIn(bar, onset), beatUnit ?? beatUnitOf(bar.meter)));
  return { bar: bar.number, label: bar.label, index: bar.index, beat };
}

/** All written bars of that printed number (both endings, both parts of a bar that is cut in two) or that label. */
export const barsNamed = (score: Score, name: number | string): readonly Bar[] =>
  score.bars.filter(bar => (typeof name === 'number' ? bar.number === name : bar.label === name));

/**
 * The moment of a bar and a beat: the inverse of `placeAt`. A number means the first ending where endings share it; of a
 * bar that is cut in two the part that holds the beat counts. `undefined` where there is no such bar or beat.
 */
export function onsetAt(
  score: Score,
  name: number | string,
  beat: Fraction,
  beatUnit?: Fraction,
): Fraction | undefined {
  for (const bar of barsNamed(score, name)) {
    const position = multiply(subtract(beat, one), beatUnit ?? beatUnitOf(bar.meter));
    const offset = subtract(position, bar.startsAt);
    if (!isBefore(offset, zero) && isBefore(offset, bar.length)) return add(bar.start, offset);
  }
  return undefined;
}

/** Into how many parts each level of the metre divides, from the bar down to the beat and on. */
function divisionsOf(meter: Meter): readonly number[] {
  const beats = isCompound(meter) ? meter.beats / 3 : meter.beats;
  const upper = beats % 2 === 0 && beats > 2 ? [2, beats / 2] : [beats];
  return [...upper, ...(isCompound(meter) ? [3] : [])];
}

const finestLevel = 8;

/**
 * How strong a moment is in its metre: 1 on the downbeat, 1/2 on the next level (the half bar of 4/4, every beat of 3/4),
 * 1/4 below it, and so on; the metrical hierarchy of Lerdahl and Jackendoff (A Generative Theory of Tonal Music, 1983,
 * chapter 4) as halves. `undefined` where the score has no bars.
 */
export function metricalWeight(score: Score, onset: Fraction): number | undefined {
  const bar = barAt(score, onset);
  if (bar === undefined) return undefined;
  const position = positionIn(bar, onset);
  if (position.n === 0) return 1;
  const groups = groupsOf(bar.meter);
  if (groups.length > 0) {
    let edge = zero;
    for (const group of groups) {
      edge = add(edge, fraction(group, bar.meter.unit));
      if (equals(position, edge)) return 0.5;
    }
    return divide(position, fraction(1, bar.meter.unit)).d === 1 ? 0.25 : 0.125;
  }
  const divisions = divisionsOf(bar.meter);
  let span = bar.meter.length;
  let weight = 1;
  for (let level = 0; level < finestLevel; level++) {
    span = divide(span, fraction(divisions[level] ?? 2));
    weight /= 2;
    if (divide(position, span).d === 1) return weight;
  }
  return weight;
}
