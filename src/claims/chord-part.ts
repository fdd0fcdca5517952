import { leadingTone } from '../harmony/index.js';
import type { Segment } from '../harmony/index.js';
import { compare, greatest, least, subtract, toNumber } from '../score/index.js';
import type { Fraction, PitchClass } from '../score/index.js';
import { keyAppliedTo } from './applied-key.js';
import type { ClaimContext, Range } from './model.js';
import { segmentsIn } from './segments.js';
import { harmoniesOf, inversionsOf } from './subjects/harmonies.js';
import type { Harmony } from './subjects/harmonies.js';

/** The members of a chord from its root up; the position is that in `Chord.tones`. */
export const chordParts = ['root', 'third', 'fifth', 'seventh', 'ninth'] as const;
export type ChordPart = (typeof chordParts)[number];

/** The part of a range that a harmony fills; of a moment the moment. */
const within = (harmony: Harmony, { start, end }: Range): Range => ({
  start: greatest(harmony.start, start),
  end: compare(start, end) === 0 ? end : least(harmony.end, end),
});

/** Within a range: how much of it a harmony fills, in whole notes. */
const filled = ({ start, end }: Harmony, range: Range): number =>
  toNumber(subtract(least(end, range.end), greatest(start, range.start)));

/** The harmonies of a range, that which fills most of it first, the others in time order. */
function mainFirst(range: Range, { analysis }: ClaimContext): readonly Harmony[] {
  const all = harmoniesOf(segmentsIn(analysis, range));
  const most = all.reduce<Harmony | undefined>(
    (best, each) => (best === undefined || filled(each, range) > filled(best, range) ? each : best),
    undefined,
  );
  return most === undefined ? [] : [most, ...all.filter(each => each !== most)];
}

/** Of a moment the harmony as it goes on, with the seventh that comes later. */
const wholeAt = ({ start, end }: Range, harmony: Harmony, { analysis }: ClaimContext): Harmony =>
  compare(start, end) < 0
    ? harmony
    : (inversionsOf(analysis.segments).find(({ segments }) => segments.includes(harmony.segments[0])) ??
      harmony);

/** A chord, its member where it has one, the part of the range that its harmony fills, and when that harmony ends. */
interface ChordWithPart {
  readonly segment: Segment;
  readonly tone?: PitchClass;
  readonly range: Range;
  readonly ends: Fraction;
}

/** When the chord of a segment gives way, in whatever inversion it goes on. */
const harmonyEnd = (segment: Segment, { analysis }: ClaimContext): Fraction =>
  inversionsOf(analysis.segments).find(({ segments }) => segments.includes(segment))?.end ?? segment.end;

/**
 * The chord that is meant by a member of it: the main chord of a range, or where that has no such member the first that has one. A tone that
 * comes a beat after the others belongs to the chord (V, then V7), so the whole harmony is asked.
 */
export function chordWith(part: ChordPart, range: Range, context: ClaimContext): ChordWithPart | undefined {
  const harmonies = mainFirst(range, context).map(each => wholeAt(range, each, context));
  const index = chordParts.indexOf(part);
  for (const harmony of harmonies)
    for (const segment of harmony.segments) {
      const tone = segment.chord.tones[index];
      if (tone !== undefined)
        return { segment, tone, range: within(harmony, range), ends: harmonyEnd(segment, context) };
    }
  const [first] = harmonies;
  return first === undefined
    ? undefined
    : { segment: first.segments[0], range: within(first, range), ends: first.end };
}

/** A leading tone and the part of a range in which it is one, the main harmony first. */
export interface LeadingTone extends Range {
  readonly tone: PitchClass;
}

/**
 * The leading tones of a range: of an applied dominant its own, as V65/iv leads to iv, and of any other harmony that of its key (Hutchinson,
 * Secondary Dominants: the leading tone of the chord that is tonicized).
 */
export const leadingTonesIn = (range: Range, context: ClaimContext): readonly LeadingTone[] =>
  mainFirst(range, context).map(harmony => {
    const applied = harmony.segments.map(keyAppliedTo).find(key => key !== undefined);
    return { tone: leadingTone(applied ?? harmony.segments[0].key), ...within(harmony, range) };
  });
