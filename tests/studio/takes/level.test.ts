/** What the meter reads and how it moves. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decibels, levelOf } from '../../../src/studio/takes/level.js';
import { nextReading, zoneOf } from '../../../src/studio/takes/peak-meter.js';

const rate = 48_000;
/** A second of a tone of 1 kHz, or of what is made of its phase. */
const second = (shape: (phase: number) => number): Float32Array =>
  Float32Array.from({ length: rate }, (_, n) => shape((2 * Math.PI * 1000 * (n + 0.5)) / rate));
const square = (phase: number): number => (Math.sin(phase) >= 0 ? 1 : -1);

describe('the level', () => {
  // AES17-2015, 3.12 (from memory): 0 dBFS is the root mean square of a sine whose peak is full scale, so a square wave has +3.01 dB.
  it.each([
    ['a sine at full scale', second(Math.sin), 0, 0],
    ['a square wave at full scale', second(square), 0, 3.01],
    ['a sine at half of it', second(phase => Math.sin(phase) / 2), -6.02, -6.02],
    // EBU R 68: alignment level is 18 dB under full scale, an eighth of its amplitude.
    ['a sine at alignment level', second(phase => Math.sin(phase) * 10 ** (-18 / 20)), -18, -18],
    ['a constant', new Float32Array(100).fill(-0.1), -20, -16.99],
  ] as const)('of %s', (_, samples, peak, rms) => {
    const level = levelOf(samples);
    // 1 kHz at 48 kHz with half a sample of offset: the greatest sample is 0.02 dB under the peak.
    expect(Math.abs(level.peak - peak)).toBeLessThan(0.03);
    expect(Math.abs(level.rms - rms)).toBeLessThan(0.01);
  });

  it('of silence and of nothing is none', () => {
    expect(levelOf(new Float32Array(10))).toEqual({ peak: -Infinity, rms: -Infinity });
    expect(levelOf(new Float32Array())).toEqual({ peak: -Infinity, rms: -Infinity });
  });

  it('rises by 6.02 dB when the amplitude is doubled', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -16_000, max: 16_000 }), { minLength: 1, maxLength: 200 }),
        values => {
          fc.pre(values.some(value => value !== 0));
          const soft = levelOf(Float32Array.from(values, value => value / 32_768));
          const loud = levelOf(Float32Array.from(values, value => value / 16_384));
          expect(loud.peak - soft.peak).toBeCloseTo(decibels(2), 6);
          expect(loud.rms - soft.rms).toBeCloseTo(decibels(2), 6);
        },
      ),
    );
  });
});

describe('the meter', () => {
  // IEC 60268-18 (from memory): a reading falls by 20 dB in 1.7 s; EBU R 68 and R 128 for the zones, common practice for the soft ones.
  it('shows a peak at once and falls by 20 dB in 1.7 seconds', () => {
    expect(nextReading(-60, -6, 0.02)).toBe(-6);
    let shown = 0;
    for (let n = 0; n < 170; n += 1) shown = nextReading(shown, -Infinity, 0.01);
    expect(shown).toBeCloseTo(-20, 6);
    expect(nextReading(-Infinity, -Infinity, 1)).toBe(-Infinity);
  });

  it('falls as far in many steps as in one, and never under what it hears', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -90, max: 0, noNaN: true }),
        fc.double({ min: -90, max: 0, noNaN: true }),
        fc.integer({ min: 1, max: 50 }),
        (shown, peak, steps) => {
          let reading = shown;
          for (let n = 0; n < steps; n += 1) reading = nextReading(reading, peak, 1 / steps);
          expect(reading).toBeCloseTo(nextReading(shown, peak, 1), 6);
          expect(reading).toBeGreaterThanOrEqual(peak);
        },
      ),
    );
  });

  it.each([
    [-60, 'silent'],
    [-48, 'soft'],
    [-24.1, 'soft'],
    [-24, 'good'],
    [-9.1, 'good'],
    [-9, 'loud'],
    [-1.1, 'loud'],
    [-1, 'over'],
    [0, 'over'],
    [-Infinity, 'silent'],
  ] as const)('of %d dBFS is %s', (peak, zone) => {
    expect(zoneOf(peak)).toBe(zone);
  });
});
