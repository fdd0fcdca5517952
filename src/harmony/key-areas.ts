import { sameKey } from './key.js';
import type { KeyArea, Segment } from './model.js';

/** Runs of segments in one key. */
export function keyAreasOf(segments: readonly Segment[]): readonly KeyArea[] {
  const areas: { start: Segment['start']; end: Segment['end']; key: KeyArea['key'] }[] = [];
  for (const { start, end, key } of segments) {
    const last = areas[areas.length - 1];
    if (last !== undefined && sameKey(last.key, key)) last.end = end;
    else areas.push({ start, end, key });
  }
  return areas;
}
