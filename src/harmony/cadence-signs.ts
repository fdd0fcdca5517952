import { add, compare, isBefore, toNumber } from '../score/index.js';
import type { Fraction, Note } from '../score/index.js';
import { momentAt } from './hearing.js';
import type { Segment } from './model.js';
import type { Heard } from './segments.js';
import { ticksOf } from './sound.js';
import type { Tone } from './sound.js';

/**
 * The notes that may count as the soprano of an arrival: the highest tone and the tone of the first voice, and what either moves to
 * within the beat (an appoggiatura or suspension at the arrival resolves first).
 */
export function sopranoNotes(
  { score, sound, lattice }: Heard,
  onset: Fraction,
  beat: Fraction,
): readonly Note[] {
  const start = ticksOf(onset, sound.ticksPerWhole);
  const end = ticksOf(add(onset, beat), sound.ticksPerWhole);
  const moment = lattice.moments[momentAt(lattice.moments, start)];
  const sounding = (moment?.sounding ?? [])
    .map(index => sound.tones[index])
    .filter(tone => tone !== undefined);
  const highest = sounding[sounding.length - 1];
  const firstVoice = sounding.findLast(tone => tone.voice === 0);
  const withResolution = (tone: Tone | undefined): Tone[] => {
    if (tone === undefined) return [];
    const next = tone.next === undefined ? undefined : sound.tones[tone.next];
    const byStep = tone.departure === 'step up' || tone.departure === 'step down';
    return next !== undefined && byStep && next.on <= end ? [tone, next] : [tone];
  };
  return [...withResolution(highest), ...withResolution(firstVoice)]
    .map(tone => score.notes[tone.notes[0] ?? -1])
    .filter(note => note !== undefined);
}

/**
 * How strongly a phrase closes on an onset, 0 to 1: a long tone in the upper line, a rest after it, a strong beat, a harmony that stays.
 * Common practice; no single sign is needed.
 */
export function closureOf({ sound, lattice }: Heard, segments: readonly Segment[], onset: Fraction): number {
  const start = ticksOf(onset, sound.ticksPerWhole);
  const moment = lattice.moments[momentAt(lattice.moments, start)];
  if (moment === undefined) return 0;
  const top = sound.tones[moment.sounding[moment.sounding.length - 1] ?? -1];
  const beats = top === undefined ? 0 : (top.off - start) / moment.beat;
  const next = top?.next === undefined ? undefined : sound.tones[top.next];
  const rest = top !== undefined && (next === undefined || next.on > top.off);
  const segment = segments.find(
    candidate => compare(candidate.start, onset) <= 0 && isBefore(onset, candidate.end),
  );
  const stays =
    segment === undefined
      ? 0
      : ((toNumber(segment.end) - toNumber(onset)) * sound.ticksPerWhole) / moment.beat;
  const strong = moment.level <= 1 ? 0.2 : moment.level === 2 ? 0.1 : 0;
  return Math.min(1, strong + Math.min(0.5, beats * 0.18) + (rest ? 0.35 : 0) + Math.min(0.2, stays * 0.08));
}
