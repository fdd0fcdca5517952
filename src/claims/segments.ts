import { romanFor, sameKey } from '../harmony/index.js';
import type { Analysis, Key, Segment } from '../harmony/index.js';
import { compare, greatest, isBefore, least, subtract, toNumber } from '../score/index.js';
import type { Fraction } from '../score/index.js';
import type { ClaimContext, Range } from './model.js';

const overlap = (segment: Segment, { start, end }: Range): Fraction =>
  subtract(least(segment.end, end), greatest(segment.start, start));

/** Segments that share time with a range, in time order; at a moment the one that sounds there. */
export function segmentsIn({ segments }: Analysis, range: Range): readonly Segment[] {
  const isMoment = compare(range.start, range.end) === 0;
  return segments.filter(segment =>
    isMoment
      ? compare(segment.start, range.start) <= 0 && isBefore(range.start, segment.end)
      : isBefore(segment.start, range.end) && isBefore(range.start, segment.end),
  );
}

/** The segment that fills most of a range, the first of equals. */
export function mainSegment(analysis: Analysis, range: Range): Segment | undefined {
  return segmentsIn(analysis, range).reduce<Segment | undefined>(
    (best, each) =>
      best === undefined || toNumber(overlap(each, range)) > toNumber(overlap(best, range)) ? each : best,
    undefined,
  );
}

/** The numeral of a harmony in one key, whatever the key in which the analysis hears it. */
export const numeralIn = (segment: Segment, key: Key): string =>
  sameKey(segment.key, key) ? segment.roman : romanFor(segment.chord, key);

/** Numerals in a row as a reason prints them: in the key in which the claims of the lesson are read. */
export const sayNumerals = (segments: readonly Segment[], { home }: Pick<ClaimContext, 'home'>): string =>
  segments.map(segment => numeralIn(segment, home)).join(' ');

export const covers = (outer: Range, inner: Range): boolean =>
  compare(outer.start, inner.start) <= 0 && compare(inner.end, outer.end) <= 0;

/** Whether a moment lies in a range; the end does not belong to it, except at a moment. */
export const liesIn = (moment: Fraction, { start, end }: Range): boolean =>
  compare(start, moment) <= 0 &&
  (isBefore(moment, end) || (compare(start, end) === 0 && compare(start, moment) === 0));
