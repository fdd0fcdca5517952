import { compare, isBefore } from '../score/index.js';
import type { Fraction } from '../score/index.js';
import type { Analysis, Segment } from './model.js';

/** Position of the first segment that ends after a time. */
export function firstEndingAfter(segments: readonly Segment[], time: Fraction): number {
  let low = 0;
  let high = segments.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const segment = segments[middle];
    if (segment !== undefined && compare(segment.end, time) > 0) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** The segment that holds a time, or `undefined` outside the piece. */
export const segmentAt = (analysis: Analysis, time: Fraction): Segment | undefined =>
  analysis.segments[firstEndingAfter(analysis.segments, time)];

/** The segments that overlap a span; for a moment the one that holds it. */
export function segmentsBetween(analysis: Analysis, start: Fraction, end: Fraction): readonly Segment[] {
  const first = firstEndingAfter(analysis.segments, start);
  let last = first;
  while (last + 1 < analysis.segments.length && isBefore(analysis.segments[last + 1]?.start ?? end, end))
    last++;
  return analysis.segments.slice(first, last + 1);
}
