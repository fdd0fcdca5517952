/** What is said of a recording: clipping, level, noise. The borders: EBU R 68 and R 128, common practice, and the silences of a build. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { backgroundOf } from '../../../src/studio/takes/background.js';
import { judgeRecording } from '../../../src/studio/takes/judge-recording.js';
import { oversOf } from '../../../src/studio/takes/overs.js';

const rate = 16_000;
/** A noise with equal samples at every run: a linear congruence (D. Knuth, The Art of Computer Programming 2, 3.3.4; the numbers from memory). */
const noise = (seconds: number, level: number): Float32Array => {
  let state = 1;
  // White noise between -1 and 1 has a root mean square of 1/sqrt(3): 1.76 dB under a sine's.
  const amplitude = 10 ** ((level + 1.76) / 20);
  return Float32Array.from({ length: Math.round(seconds * rate) }, () => {
    state = (1_664_525 * state + 1_013_904_223) % 2 ** 32;
    return amplitude * (state / 2 ** 31 - 1);
  });
};
/** Words of 0.4 s with pauses of 0.2 s between them, in a room. */
const speech = (peak: number, room: number): Float32Array => {
  const sound = noise(3, room);
  const amplitude = 10 ** (peak / 20);
  sound.forEach((sample, n) => {
    if ((n / rate) % 0.6 < 0.4)
      sound[n] = Math.max(-1, Math.min(1, sample + amplitude * Math.sin((2 * Math.PI * 200 * n) / rate)));
  });
  return sound;
};
const kinds = (samples: Float32Array, room: Float32Array): readonly string[] =>
  judgeRecording(samples, room, rate).remarks.map(({ kind }) => kind);

describe('a recording', () => {
  it.each([
    ['as it should be', speech(-12, -65), noise(1, -65), []],
    ['nothing', noise(3, -70), noise(1, -70), ['silent']],
    ['cut off at the top', speech(6, -65), noise(1, -65), ['clipped']],
    ['at the very top, not cut off', speech(-0.5, -65), noise(1, -65), ['loud']],
    ['soft', speech(-30, -75), noise(1, -75), ['soft']],
    ['in a noisy room', speech(-12, -40), noise(1, -40), ['noisy']],
    ['soft in a noisy room', speech(-30, -55), noise(1, -55), ['soft', 'noisy']],
    // A text of one word has no pause; the room before it tells that there is no noise.
    ['one word without a pause', speech(-12, -65).subarray(0, 0.4 * rate), noise(1, -65), []],
  ] as const)('%s', (_, samples, room, expected) => {
    expect(kinds(samples, room)).toEqual(expected);
  });

  it('without a room before it is judged by its own pauses', () => {
    expect(kinds(speech(-12, -65), new Float32Array())).toEqual([]);
    expect(kinds(speech(-12, -40), new Float32Array())).toEqual(['noisy']);
  });

  it('of no length is silent', () => {
    expect(kinds(new Float32Array(), new Float32Array())).toEqual(['silent']);
  });
});

describe('clipping', () => {
  // Common practice of meters: three samples in a row at full scale.
  const at = (values: readonly number[], gap = 0): Float32Array => {
    const samples = new Float32Array(2 * rate);
    values.forEach((value, n) => (samples[rate + n] = value));
    if (gap > 0) values.forEach((value, n) => (samples[rate + gap + n] = value));
    return samples;
  };
  it.each([
    ['two samples', at([1, 1]), 0],
    ['three', at([1, 1, 1]), 1],
    ['three downwards', at([-1, -1, -1]), 1],
    ['three just under the greatest number of 16 bits', at([0.9999, 0.9999, 0.9999]), 0],
    ['the greatest number of 16 bits', at([32_767 / 32_768, 32_767 / 32_768, 32_767 / 32_768]), 1],
    ['three with a gap', at([1, 1, 0, 1, 1]), 0],
    ['two places close together', at([1, 1, 1], 500), 1],
    ['two places apart', at([1, 1, 1], 5000), 2],
  ] as const)('%s', (_, samples, expected) => {
    expect(oversOf(samples, rate)).toHaveLength(expected);
  });

  it('is found where it is, to its last sample', () => {
    expect(oversOf(at([1, 1, 1, 1]), rate)).toEqual([{ from: 1, to: 1 + 4 / rate }]);
    expect(oversOf(new Float32Array(4).fill(1), 4)).toEqual([{ from: 0, to: 1 }]);
  });
});

describe('the background', () => {
  it('is the level of the noise under the words', () => {
    const { noise: found, speech: loud } = backgroundOf(speech(-12, -50), rate);
    expect(Math.abs(found + 50)).toBeLessThan(1);
    expect(Math.abs(loud + 12)).toBeLessThan(0.5);
  });

  it('is never above the speech', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -32_768, max: 32_767 }), { maxLength: 3000 }), values => {
        const { noise: found, speech: loud } = backgroundOf(
          Float32Array.from(values, value => value / 32_768),
          rate,
        );
        expect(found <= loud).toBe(true);
      }),
    );
  });
});
