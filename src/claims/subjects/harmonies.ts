import { bassOf, sameKey } from '../../harmony/index.js';
import type { Segment } from '../../harmony/index.js';
import { keyAppliedTo } from '../applied-key.js';
import type { Range } from '../model.js';

/** One chord over all its inversions: neighbouring segments of the same chord. */
export interface Harmony extends Range {
  readonly segments: readonly [Segment, ...Segment[]];
}

/** `D dominant seventh` and `D major` share the triad: a seventh that comes late makes no new chord. */
const triadOf = ({ chord }: Segment): string => chord.tones.slice(0, 3).join(' ');

const isApplied = (segment: Segment): boolean => keyAppliedTo(segment) !== undefined;
const isSameBass = (a: Segment, b: Segment): boolean => bassOf(a.chord) === bassOf(b.chord);
/** I over another bass and with a seventh may be V65/IV: a chord of its own, where the seventh alone would only be late. */
const isOneHarmony = (a: Segment, b: Segment): boolean =>
  triadOf(a) === triadOf(b) && sameKey(a.key, b.key) && (isApplied(a) === isApplied(b) || isSameBass(a, b));

function joined(
  segments: readonly Segment[],
  isOne: (before: Segment, segment: Segment) => boolean,
): readonly Harmony[] {
  const found: Harmony[] = [];
  for (const segment of segments) {
    const last = found.at(-1);
    const before = last?.segments.at(-1);
    if (last !== undefined && before !== undefined && isOne(before, segment))
      found[found.length - 1] = { ...last, end: segment.end, segments: [...last.segments, segment] };
    else found.push({ start: segment.start, end: segment.end, segments: [segment] });
  }
  return found;
}

/** Neighbouring segments with one chord put together; a new inversion or an added seventh is no new harmony. */
export const harmoniesOf = (segments: readonly Segment[]): readonly Harmony[] =>
  joined(segments, isOneHarmony);

/** The same where a new inversion is a new chord: V6 and the V65 of which the seventh comes late are one. */
export const inversionsOf = (segments: readonly Segment[]): readonly Harmony[] =>
  joined(segments, (a, b) => isOneHarmony(a, b) && isSameBass(a, b));
