import samplerate from '@alexanderolsen/libsamplerate-js';
import type { Mono } from '../mono.js';

/** Input samples on each side that count for an output sample. */
const reach = 16;
/** Shape of the Kaiser window: about 80 dB of attenuation (A. Oppenheim, R. Schafer, Discrete-Time Signal Processing, 7.5.3). */
const kaiserBeta = 8;
/** The part of the band that passes. */
const passband = 0.92;

/** Modified Bessel function of the first kind, order 0, by its series. */
function besselI0(x: number): number {
  let [term, sum] = [1, 1];
  for (let k = 1; term > sum * 1e-12; k += 1) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}

/** Taps of each phase of an interpolator, each phase with a sum of 1. */
function phasesOf(factor: number): readonly Float64Array[] {
  return Array.from({ length: factor }, (_, phase) => {
    const taps = Float64Array.from({ length: 2 * reach }, (__, tap) => {
      const t = tap - reach + 1 - phase / factor;
      const x = Math.PI * passband * t;
      const window =
        Math.abs(t) < reach
          ? besselI0(kaiserBeta * Math.sqrt(1 - (t / reach) ** 2)) / besselI0(kaiserBeta)
          : 0;
      return (x === 0 ? 1 : Math.sin(x) / x) * window;
    });
    const sum = taps.reduce((a, b) => a + b, 0);
    return taps.map(tap => tap / sum);
  });
}

const knownPhases = new Map<number, readonly Float64Array[]>();

/** Multiplies the sample rate by a whole number; the sound stays in step (no delay). Much quicker than the general conversion. */
function interpolate(samples: Float32Array, factor: number): Float32Array {
  const phases = knownPhases.get(factor) ?? phasesOf(factor);
  knownPhases.set(factor, phases);
  const padded = new Float32Array(samples.length + 2 * reach);
  padded.set(samples, reach);
  const out = new Float32Array(samples.length * factor);
  phases.forEach((taps, phase) => {
    for (let i = 0; i < samples.length; i += 1) {
      let sum = 0;
      for (let tap = 0; tap < 2 * reach; tap += 1) sum += (taps[tap] ?? 0) * (padded[i + tap + 1] ?? 0);
      out[i * factor + phase] = sum;
    }
  });
  return out;
}

/** The same sound at another sample rate, in step with it. */
export async function resample(sound: Mono, sampleRate: number): Promise<Float32Array> {
  if (sound.sampleRate === sampleRate || sound.samples.length === 0) return sound.samples;
  const factor = sampleRate / sound.sampleRate;
  if (Number.isInteger(factor) && factor <= 8) return interpolate(sound.samples, factor);
  const { create, ConverterType } = samplerate;
  const converter = await create(1, sound.sampleRate, sampleRate, {
    converterType: ConverterType.SRC_SINC_MEDIUM_QUALITY,
  });
  try {
    return converter.simple(sound.samples);
  } finally {
    converter.destroy();
  }
}
