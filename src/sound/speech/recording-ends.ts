import type { Mono } from '../mono.js';
import { voicedStretches } from './pauses.js';
import type { Stretch } from './pauses.js';

/** A silence that is long enough to part what is said from what is not, in seconds. */
const shortestSilence = 0.3;
/** Silence that is left at both ends, in seconds. */
const margin = 0.05;

/** Where the speech of a recording begins and ends, in seconds, with a little silence around it; the whole of a silent one. */
export function recordingEnds(sound: Mono): Stretch {
  const seconds = sound.samples.length / sound.sampleRate;
  const stretches = voicedStretches(sound, shortestSilence);
  const [first, last] = [stretches[0], stretches.at(-1)];
  if (first === undefined || last === undefined) return { start: 0, end: seconds };
  return { start: Math.max(0, first.start - margin), end: Math.min(seconds, last.end + margin) };
}

/** The part of a recording between two places in seconds. */
export const cutAt = ({ samples, sampleRate }: Mono, { start, end }: Stretch): Mono => ({
  samples: samples.slice(Math.round(start * sampleRate), Math.round(end * sampleRate)),
  sampleRate,
});
