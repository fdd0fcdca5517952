import { describe, expect, it } from 'vitest';
import { limit, measureLoudness, measureTruePeak } from '../../src/sound/index.js';
import { kWeighting } from '../../src/sound/loudness/k-weighting.js';

const rate = 48_000;
const amplitude = (dbfs: number): number => 10 ** (dbfs / 20);

/** A 1 kHz sine as stretches of level (dBFS of the peak) and seconds. */
function sine(parts: readonly (readonly [number, number])[], frequency = 1000): Float32Array {
  const total = parts.reduce((sum, [, seconds]) => sum + Math.round(seconds * rate), 0);
  const samples = new Float32Array(total);
  let at = 0;
  for (const [level, seconds] of parts) {
    const end = at + Math.round(seconds * rate);
    for (; at < end; at += 1)
      samples[at] = amplitude(level) * Math.sin((2 * Math.PI * frequency * at) / rate);
  }
  return samples;
}

describe('K-weighting', () => {
  it('has the coefficients of BS.1770-4, Annex 1, tables 1 and 2, at 48 kHz', () => {
    const [shelf, highPass] = kWeighting(rate);
    const table1 = {
      b0: 1.53512485958697,
      b1: -2.69169618940638,
      b2: 1.19839281085285,
      a1: -1.69065929318241,
      a2: 0.73248077421585,
    };
    for (const [name, value] of Object.entries(table1))
      expect(shelf[name as keyof typeof table1]).toBeCloseTo(value, 9);
    expect(highPass.a1).toBeCloseTo(-1.99004745483398, 9);
    expect(highPass.a2).toBeCloseTo(0.99007225036621, 9);
  });
});

// EBU Tech 3341, table 1, minimum requirements test signals; expected values as published, +-0.1 LU. The levels and lengths of the
// parts of cases 3 to 5 are partly from memory. Cases 7 and 8 are recordings and not made here.
describe('integrated loudness, EBU Tech 3341', () => {
  const stereo = (samples: Float32Array) => measureLoudness([samples, samples], rate);
  it.each([
    ['1: -23 dBFS', [[-23, 20]], -23],
    ['2: -33 dBFS', [[-33, 20]], -33],
    ['3: quiet at both ends, left out by the relative gate', [[-36, 10], [-23, 60], [-36, 10]], -23],
    ['4: very quiet at both ends, left out by the absolute gate', [[-72, 10], [-36, 10], [-23, 60], [-36, 10], [-72, 10]], -23],
    ['5: a louder middle, nothing left out', [[-26, 20], [-20, 20.1], [-26, 20]], -23],
  ] as const)('%s', (_, parts, expected) => {
    expect(Math.abs(stereo(sine(parts)) - expected)).toBeLessThanOrEqual(0.1);
  }); // prettier-ignore

  it('6: five channels, surrounds weighted by 1.41', () => {
    const [front, centre, surround] = [sine([[-28, 20]]), sine([[-24, 20]]), sine([[-30, 20]])];
    const loudness = measureLoudness([front, front, centre, surround, surround], rate, [1, 1, 1, 1.41, 1.41]);
    expect(Math.abs(loudness - -23)).toBeLessThanOrEqual(0.1);
  });

  it('is the same at another sample rate', () => {
    const at16k = Float32Array.from(
      { length: 16_000 * 5 },
      (_, i) => amplitude(-23) * Math.sin((2 * Math.PI * 1000 * i) / 16_000),
    );
    expect(Math.abs(measureLoudness([at16k, at16k], 16_000) - -23)).toBeLessThanOrEqual(0.1);
  });

  it('is minus infinity for silence and for less than a block', () => {
    expect(measureLoudness([new Float32Array(rate)], rate)).toBe(-Infinity);
    expect(measureLoudness([sine([[-23, 0.3]])], rate)).toBe(-Infinity);
  });
});

// EBU Tech 3341, signals 15 to 23: expected values as published, +0.2/-0.4 dB; the shape of signals 20 to 23 is from memory. Signals 9 to 14
// are for meters of momentary and short-term loudness.
describe('true peak, EBU Tech 3341', () => {
  const tone = (level: number, divisor: number, degrees: number) =>
    Float32Array.from(
      { length: rate / 10 },
      (_, i) =>
        level *
        Math.sin((2 * Math.PI * i) / divisor + (degrees * Math.PI) / 180) *
        Math.min(1, i / 2000, (rate / 10 - i) / 2000),
    );
  it.each([
    ['15: fs/4, 0 degrees', 0.5, 4, 0, -6],
    ['16: fs/4, 45 degrees', 0.5, 4, 45, -6],
    ['17: fs/6, 60 degrees', 0.5, 6, 60, -6],
    ['18: fs/8, 67.5 degrees', 0.5, 8, 67.5, -6],
    ['19: fs/4, 45 degrees, above full scale', 1.41, 4, 45, 3],
  ])('%s', (_, level, divisor, degrees, expected) => {
    const peak = measureTruePeak([tone(level, divisor, degrees)]);
    expect(peak).toBeLessThanOrEqual(expected + 0.2);
    expect(peak).toBeGreaterThanOrEqual(expected - 0.4);
  });

  /** A tone of fs/4 with one period of full scale, made at four times the sample rate and low-pass filtered there. */
  const oversampled = ((): Float64Array => {
    const [length, period, middle, reach] = [4 * 4800, 16, 2 * 4800, 256];
    const tones = Float64Array.from({ length }, (_, i) => {
      const level = i >= middle && i < middle + period ? 1 : 0.5;
      return level * Math.sin((2 * Math.PI * i) / period) * Math.min(1, i / 4800, (length - i) / 4800);
    });
    // A sinc of 23 kHz at 192 kHz in a Blackman window (A. Oppenheim, R. Schafer, Discrete-Time Signal Processing, 7.5).
    const cutoff = 23 / 192;
    const filter = Float64Array.from({ length: 2 * reach + 1 }, (_, k) => {
      const t = k - reach;
      const window =
        0.42 + 0.5 * Math.cos((Math.PI * t) / reach) + 0.08 * Math.cos((2 * Math.PI * t) / reach);
      return window * (t === 0 ? 2 * cutoff : Math.sin(2 * Math.PI * cutoff * t) / (Math.PI * t));
    });
    return tones.map((_, i) => filter.reduce((sum, tap, k) => sum + tap * (tones[i + k - reach] ?? 0), 0));
  })();

  it.each([
    ['20', 0],
    ['21', 1],
    ['22', 2],
    ['23', 3],
  ])('%s: a single period of full scale, sampled from %i of 4 on', (_, offset) => {
    const samples = Float32Array.from({ length: 4800 }, (__, i) => oversampled[4 * i + offset] ?? 0);
    const peak = measureTruePeak([samples]);
    expect(peak).toBeLessThanOrEqual(0.2);
    expect(peak).toBeGreaterThanOrEqual(-0.4);
  });
});

describe('the limiter', () => {
  const limited = async (
    samples: Float32Array,
    ceiling: number,
    blockLength = 4800,
  ): Promise<Float32Array> => {
    async function* blocks() {
      for (let at = 0; at < samples.length; at += blockLength) {
        const part = samples.slice(at, at + blockLength);
        yield await Promise.resolve(part);
      }
    }
    const out: number[] = [];
    for await (const block of limit(blocks(), ceiling, rate)) out.push(...block);
    return Float32Array.from(out);
  };
  const difference = (a: Float32Array, b: Float32Array): number =>
    a.reduce((most, sample, index) => Math.max(most, Math.abs(sample - (b[index] ?? NaN))), 0);
  /** Quiet, then a loud burst, then quiet again. */
  const burst = sine(
    [
      [-12, 0.3],
      [3, 0.05],
      [-12, 1.6],
    ],
    997,
  );

  it('keeps the true peak under the ceiling', async () => {
    const out = await limited(burst, amplitude(-1));
    expect(measureTruePeak([burst])).toBeGreaterThan(2.9);
    expect(measureTruePeak([out])).toBeLessThanOrEqual(-1 + 0.05);
    expect(measureTruePeak([out])).toBeGreaterThan(-2);
  });

  it('leaves what is under the ceiling as it is, in step with the input', async () => {
    const out = await limited(burst, amplitude(-1));
    expect(out.length).toBe(burst.length);
    const untouched = Math.round(0.29 * rate);
    expect(difference(out.slice(0, untouched), burst.slice(0, untouched))).toBe(0);
    const later = burst.length - 4800;
    expect(difference(out.slice(later), burst.slice(later))).toBe(0);
  });

  it('gives the same for any length of block', async () => {
    const whole = await limited(burst, amplitude(-1), burst.length);
    const small = await limited(burst, amplitude(-1), 333);
    expect(difference(whole, small)).toBeLessThan(1e-4);
  });
});
