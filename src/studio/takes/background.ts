import { levelOf } from './level.js';

/** Length of the stretches whose levels are compared, in seconds: shorter than a pause between words, longer than a period of a voice. */
const windowSeconds = 0.05;

/** What speaks and what is there all the time, in dBFS (root mean square). */
export interface Background {
  /** Exceeded nine tenths of the time: the level L90, which stands for the background (ISO 1996-1:2016, 3.1.3; BS 4142:2014, 3.4). */
  readonly noise: number;
  /** Exceeded one tenth of the time, L10: the loud parts of the speech. */
  readonly speech: number;
}

/** @returns both `-Infinity` for a sound without samples */
export function backgroundOf(samples: Float32Array, sampleRate: number): Background {
  const size = Math.max(1, Math.round(windowSeconds * sampleRate));
  const levels = Array.from(
    { length: Math.ceil(samples.length / size) },
    (_, n) => levelOf(samples.subarray(n * size, (n + 1) * size)).rms,
  ).sort((a, b) => a - b);
  const exceeded = (share: number): number =>
    levels[Math.min(levels.length - 1, Math.floor(levels.length * (1 - share)))] ?? -Infinity;
  return { noise: exceeded(0.9), speech: exceeded(0.1) };
}
