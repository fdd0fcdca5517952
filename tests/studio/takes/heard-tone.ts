/** Sound for a microphone that is none, and what is to be found of it in what was recorded. */
import { wavHeader } from '../../../src/sound/index.js';
import type { Mono } from '../../../src/sound/index.js';

const sampleRate = 48_000;

/** A WAV file of 16 bits, one channel, 48 kHz, out of stretches: a tone of 440 Hz or silence. Chromium plays it to the page again and again. */
export function heardFile(
  stretches: readonly { readonly seconds: number; readonly amplitude: number }[],
): Buffer {
  const samples = stretches.flatMap(({ seconds, amplitude }) =>
    Array.from({ length: Math.round(seconds * sampleRate) }, (_, n) =>
      Math.max(-1, Math.min(1, amplitude * Math.sin((2 * Math.PI * 440 * n) / sampleRate))),
    ),
  );
  const pcm = Buffer.alloc(samples.length * 2);
  samples.forEach((sample, n) => pcm.writeInt16LE(Math.round(sample * 32_767), n * 2));
  return Buffer.concat([wavHeader(samples.length, 1, sampleRate), pcm]);
}

/** In seconds. */
export const lengthOf = ({ samples, sampleRate }: Mono): number => samples.length / sampleRate;
export const greatest = ({ samples }: Mono): number =>
  samples.reduce((most, one) => Math.max(most, Math.abs(one)), 0);

/**
 * The share of a sound's energy that lies at a frequency, twentieth of a second by twentieth (G. Goertzel, American Mathematical Monthly 65,
 * 1958): the browser's stand-in for a device does not keep the phase for longer.
 */
export function shareAt(frequency: number, { samples, sampleRate }: Mono): number {
  const size = sampleRate / 20;
  const coefficient = 2 * Math.cos((2 * Math.PI * frequency) / sampleRate);
  let [found, all] = [0, 0];
  for (let from = 0; from + size <= samples.length; from += size) {
    let [before, last] = [0, 0];
    for (const sample of samples.subarray(from, from + size)) {
      [before, last] = [last, sample + coefficient * last - before];
      all += sample * sample;
    }
    found += (2 / size) * (before * before + last * last - coefficient * before * last);
  }
  return found / all;
}
