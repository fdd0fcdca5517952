import type { Stretch } from './stretch.js';

/** A sample counts as full scale from the greatest whole number of 16 bits on. */
const fullScale = 32_767 / 32_768;
/** So many samples at full scale in a row cannot be a peak that only just fits. Common practice of meters: three. */
const inARow = 3;
/** Overs that are no further apart than this are one to the ear, in seconds. */
const together = 0.1;

/** Stretches in which the sound was cut off at full scale, in seconds. */
export function oversOf(samples: Float32Array, sampleRate: number): readonly Stretch[] {
  const overs: { from: number; to: number }[] = [];
  let run = 0;
  for (let at = 0; at <= samples.length; at += 1) {
    if (Math.abs(samples[at] ?? 0) >= fullScale) {
      run += 1;
      continue;
    }
    if (run >= inARow) {
      const [from, to] = [(at - run) / sampleRate, at / sampleRate];
      const open = overs.at(-1);
      if (open !== undefined && from - open.to < together) open.to = to;
      else overs.push({ from, to });
    }
    run = 0;
  }
  return overs;
}
