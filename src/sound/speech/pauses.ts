import type { Mono } from '../mono.js';

/** A stretch of a recording in seconds. */
export interface Stretch {
  readonly start: number;
  readonly end: number;
}

const windowSeconds = 0.01;
/** A window counts as silent when its level is this far under the recording's loud parts. Common practice for close speech: 30 dB to 40 dB. */
const silenceBelow = 10 ** (-35 / 20);
/** The level of the loud parts: nine tenths of the windows are softer. */
const loudPart = 0.9;

/** Root-mean-square level of each 10 ms. */
function levelsOf({ samples, sampleRate }: Mono): readonly number[] {
  const size = Math.max(1, Math.round(windowSeconds * sampleRate));
  return Array.from({ length: Math.floor(samples.length / size) }, (_, n) => {
    let sum = 0;
    for (let i = n * size; i < (n + 1) * size; i += 1) sum += (samples[i] ?? 0) ** 2;
    return Math.sqrt(sum / size);
  });
}

/** Stretches of a recording in which somebody speaks, apart by at least `shortestPause` seconds. Empty for a silent recording. */
export function voicedStretches(sound: Mono, shortestPause: number): readonly Stretch[] {
  const levels = levelsOf(sound);
  const loud = levels.toSorted((a, b) => a - b)[Math.floor(levels.length * loudPart)] ?? 0;
  if (loud === 0) return [];
  const stretches: { start: number; end: number }[] = [];
  levels.forEach((level, n) => {
    if (level < loud * silenceBelow) return;
    const [start, end] = [n * windowSeconds, (n + 1) * windowSeconds];
    const open = stretches.at(-1);
    if (open !== undefined && start - open.end < shortestPause) open.end = end;
    else stretches.push({ start, end });
  });
  return stretches;
}
