/** How strong a stretch of sound is, in dBFS; `-Infinity` for silence. */
export interface Level {
  /** The greatest sample; 0 is full scale. */
  readonly peak: number;
  /** Root mean square; a sine that reaches full scale has 0, a square wave that does +3.01 (AES17-2015, 3.12.3, and IEC 61606-1: full scale is a sine's; from memory). */
  readonly rms: number;
}

/** An amplitude as decibels; full scale 1 has 0. */
export const decibels = (amplitude: number): number => 20 * Math.log10(amplitude);

/** The level of samples between -1 and 1. */
export function levelOf(samples: Float32Array): Level {
  let [greatest, sum] = [0, 0];
  for (const sample of samples) {
    greatest = Math.max(greatest, Math.abs(sample));
    sum += sample * sample;
  }
  return { peak: decibels(greatest), rms: decibels(Math.sqrt((2 * sum) / Math.max(1, samples.length))) };
}
