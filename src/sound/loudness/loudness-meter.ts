import { kWeighting } from './k-weighting.js';

/** Length of one stretch whose energy is kept, in seconds: blocks of 400 ms that overlap by 75 % start every 100 ms (BS.1770-4, Annex 1). */
export const hopSeconds = 0.1;
const hopsInBlock = 4;
const absoluteGate = -70;
const relativeGate = -10;
const offset = -0.691;

export interface LoudnessMeter {
  /** Adds a block of sound, one array for each channel. */
  readonly add: (channels: readonly Float32Array[]) => void;
  /** Weighted energy (mean square) of each complete stretch of 100 ms so far. */
  readonly energies: () => readonly number[];
}

/** A running K-weighted meter. `weights` are the channel weights of BS.1770: 1 for front channels, 1.41 for surrounds. */
export function loudnessMeter(sampleRate: number, weights: readonly number[]): LoudnessMeter {
  const [shelf, highPass] = kWeighting(sampleRate);
  const hopLength = Math.round(hopSeconds * sampleRate);
  // Each channel's memory: x', x'', y', y'' of the shelf, then of the high-pass.
  const memory = weights.map(() => new Float64Array(8));
  const done: number[] = [];
  let [sum, filled] = [0, 0];

  const add = (channels: readonly Float32Array[]): void => {
    const length = channels[0]?.length ?? 0;
    for (let at = 0; at < length;) {
      const until = Math.min(length, at + hopLength - filled);
      channels.forEach((samples, channel) => {
        const m = memory[channel];
        if (m === undefined) return;
        let [x1 = 0, x2 = 0, y1 = 0, y2 = 0, u1 = 0, u2 = 0, v1 = 0, v2 = 0] = m;
        let energy = 0;
        for (let i = at; i < until; i += 1) {
          const x = samples[i] ?? 0;
          const y = shelf.b0 * x + shelf.b1 * x1 + shelf.b2 * x2 - shelf.a1 * y1 - shelf.a2 * y2;
          const v = y - 2 * u1 + u2 - highPass.a1 * v1 - highPass.a2 * v2;
          x2 = x1;
          x1 = x;
          y2 = y1;
          y1 = y;
          u2 = u1;
          u1 = y;
          v2 = v1;
          v1 = v;
          energy += v * v;
        }
        m.set([x1, x2, y1, y2, u1, u2, v1, v2].map(value => (Math.abs(value) < 1e-30 ? 0 : value)));
        sum += energy * (weights[channel] ?? 0);
      });
      filled += until - at;
      at = until;
      if (filled < hopLength) continue;
      done.push(sum / hopLength);
      [sum, filled] = [0, 0];
    }
  };
  return { add, energies: () => done };
}

const loudnessOf = (energy: number): number => offset + 10 * Math.log10(energy);
const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * Integrated loudness in LUFS of the energies of a meter (BS.1770-4): blocks of 400 ms, those under -70 LUFS left out, then those 10 LU
 * under the mean of the rest. `-Infinity` for silence and for less than 400 ms.
 */
export function integratedLoudness(energies: readonly number[]): number {
  const blocks: number[] = [];
  for (let at = 0; at + hopsInBlock <= energies.length; at += 1)
    blocks.push(mean(energies.slice(at, at + hopsInBlock)));
  const audible = blocks.filter(energy => loudnessOf(energy) > absoluteGate);
  if (audible.length === 0) return -Infinity;
  const threshold = loudnessOf(mean(audible)) + relativeGate;
  return loudnessOf(mean(audible.filter(energy => loudnessOf(energy) > threshold)));
}

/** Loudness of one sound as a whole, in LUFS. */
export function measureLoudness(
  channels: readonly Float32Array[],
  sampleRate: number,
  weights = channels.map(() => 1),
): number {
  const meter = loudnessMeter(sampleRate, weights);
  meter.add(channels);
  return integratedLoudness(meter.energies());
}
