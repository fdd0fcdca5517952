import { add, compare, isBefore } from '../score/index.js';
import type { Fraction } from '../score/index.js';
import { momentAt } from './hearing.js';
import { degreeTone } from './key.js';
import type { Key, Segment } from './model.js';
import { restingBeats } from './phrase-ends.js';
import { firstEndingAfter } from './segment-at.js';
import type { Heard } from './segments.js';
import { ticksOf } from './sound.js';

/**
 * Whether V, standing at an onset, moves straight on to I: in its own bar, after it has turned into V7 within a beat (a seventh that comes so soon says
 * that the music goes on), or within the length of a bar while nothing stops: no rest and no long tone in the upper line, no unit of form that ends
 * (common practice: a half cadence is a stop on V, and I after it begins something).
 */
export function leadsOn(heard: Heard, segments: readonly Segment[], onset: Fraction, key: Key): boolean {
  const { score, sound, lattice, units } = heard;
  const first = firstEndingAfter(segments, onset);
  let last = first;
  while (segments[last + 1]?.chord.root === degreeTone(key, 5)) last++;
  const triad = segments[first];
  const goal = segments[last + 1];
  const bar = score.bars.findLast(candidate => compare(candidate.start, onset) <= 0);
  if (triad === undefined || goal === undefined || bar === undefined) return false;
  if (goal.chord.root !== key.tonic || goal.chord.inversion >= 2 || restsBefore(heard, onset, goal.start))
    return false;
  const start = ticksOf(onset, sound.ticksPerWhole);
  const end = ticksOf(goal.start, sound.ticksPerWhole);
  const from = lattice.moments[momentAt(lattice.moments, start)];
  const to = lattice.moments[momentAt(lattice.moments, end)];
  if (from === undefined || to === undefined) return false;
  const isSoonSeventh =
    last > first &&
    segments[last]?.chord.quality.startsWith('dominant') === true &&
    ticksOf(triad.end, sound.ticksPerWhole) <= start + from.beat;
  if (isSoonSeventh || isBefore(goal.start, add(bar.start, bar.length))) return true;
  const isLater = isBefore(add(onset, bar.meter.length), goal.start);
  const upper = sound.tones.filter(({ voice, on }) => voice === 0 && on >= start && on <= end);
  const longestUntil = (before: boolean): number =>
    Math.max(0, ...upper.filter(({ on }) => on < end === before).map(tone => tone.off - tone.on));
  const stops = longestUntil(true) >= restingBeats * from.beat && longestUntil(true) >= longestUntil(false);
  return !isLater && !stops && !units.ends.slice(from.bar, to.bar).includes(true);
}

function restsBefore({ score }: Heard, onset: Fraction, end: Fraction): boolean {
  const upper = score.voices[0]?.id;
  return score.rests.some(
    rest => rest.voice === upper && isBefore(onset, rest.onset) && isBefore(rest.onset, end),
  );
}

/**
 * Whether V, arriving at an onset, had been reached already and only a harmony over its bass or a predominant came between (common practice: that prolongs
 * V; the phrase has stopped where V first came, unless a unit of form ends with its return).
 */
export function isProlonged(
  { score, units }: Heard,
  segments: readonly Segment[],
  onset: Fraction,
  key: Key,
): boolean {
  const at = firstEndingAfter(segments, onset);
  const [earlier, between] = [segments[at - 2], segments[at - 1]];
  const bar = score.bars.findLast(candidate => compare(candidate.start, onset) <= 0);
  const dominant = degreeTone(key, 5);
  return (
    earlier !== undefined &&
    between !== undefined &&
    bar !== undefined &&
    units.ends[bar.index] !== true &&
    earlier.chord.root === dominant &&
    earlier.roman !== 'cad64' &&
    earlier.chord.inversion === 0 &&
    (earlier.chord.quality === 'major' || earlier.chord.quality.startsWith('dominant')) &&
    (between.bass === dominant || between.function === 'predominant') &&
    !isBefore(add(earlier.end, bar.meter.length), onset)
  );
}
