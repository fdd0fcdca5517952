/** The waveform, its two ends, and the numbers that are sent. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { moveEnd, nearerEnd, shortestCut } from '../../../src/studio/takes/cut.js';
import { joined, toPcm16 } from '../../../src/studio/takes/pcm.js';
import { clock, inSeconds } from '../../../src/studio/takes/seconds.js';
import { outlineOf, wavePeaks } from '../../../src/studio/takes/wave-peaks.js';

const sound = fc.array(fc.integer({ min: -32_768, max: 32_767 }), { minLength: 1, maxLength: 400 });
const samplesOf = (values: readonly number[]): Float32Array =>
  Float32Array.from(values, value => value / 32_768);

describe('columns of a waveform', () => {
  it('hold every sample of theirs and nothing greater', () => {
    fc.assert(
      fc.property(sound, fc.integer({ min: 1, max: 100 }), (values, columns) => {
        const samples = samplesOf(values);
        const { least, greatest } = wavePeaks(samples, columns);
        expect(Math.min(...least)).toBe(Math.min(...samples));
        expect(Math.max(...greatest)).toBe(Math.max(...samples));
        least.forEach((low, column) => {
          expect(low).toBeLessThanOrEqual(greatest[column] ?? NaN);
        });
      }),
    );
  });

  it('are as many as asked for, also of a sound that is shorter', () => {
    expect([...wavePeaks(Float32Array.of(0.25, -0.5), 4).greatest]).toEqual([0.25, 0.25, -0.5, -0.5]);
    expect([...wavePeaks(new Float32Array(), 3).least]).toEqual([0, 0, 0]);
  });

  it('make an outline: above from left to right, below back again', () => {
    expect(outlineOf({ least: Float32Array.of(-1, 0), greatest: Float32Array.of(0.5, 1) })).toBe(
      'M0 0.500L1 0.000L1 1.000L0 2.000Z',
    );
    expect(outlineOf(wavePeaks(new Float32Array(), 0))).toBe('');
  });
});

describe('an end that is moved', () => {
  it('stays inside the recording and away from the other end', () => {
    const second = fc.double({ min: -1, max: 12, noNaN: true });
    fc.assert(
      fc.property(second, fc.constantFrom('from', 'to'), (to, end) => {
        const moved = moveEnd({ from: 1, to: 9 }, end, to, 10);
        expect(moved[end === 'from' ? 'to' : 'from']).toBe(end === 'from' ? 9 : 1);
        expect(moved.from).toBeGreaterThanOrEqual(0);
        expect(moved.to).toBeLessThanOrEqual(10);
        expect(moved.to - moved.from).toBeGreaterThanOrEqual(shortestCut - 1e-9);
      }),
    );
  });

  it('goes where it is put', () => {
    expect(moveEnd({ from: 1, to: 9 }, 'from', 2.5, 10)).toEqual({ from: 2.5, to: 9 });
    expect(moveEnd({ from: 1, to: 9 }, 'to', 2.5, 10)).toEqual({ from: 1, to: 2.5 });
    expect([nearerEnd({ from: 1, to: 9 }, 4.9), nearerEnd({ from: 1, to: 9 }, 5.1)]).toEqual(['from', 'to']);
  });
});

describe('what is sent', () => {
  it('is whole numbers of 16 bits, low byte first', () => {
    const sent = toPcm16([Float32Array.of(0, 0.5), Float32Array.of(-1, 1, 1.5, -2)]);
    expect([...new Int16Array(sent.buffer)]).toEqual([0, 16_384, -32_768, 32_767, 32_767, -32_768]);
  });

  it('is what was heard, to half a step', () => {
    fc.assert(
      fc.property(fc.array(sound, { maxLength: 4 }), blocks => {
        const sent = new Int16Array(toPcm16(blocks.map(samplesOf)).buffer);
        expect([...sent]).toEqual(blocks.flat());
        expect([...joined(blocks.map(samplesOf))]).toEqual([...samplesOf(blocks.flat())]);
      }),
    );
  });
});

describe('times', () => {
  it.each([
    [0, '0:00', '0.0 s'],
    [59.6, '1:00', '59.6 s'],
    [65.04, '1:05', '65.0 s'],
    [3600, '60:00', '3600.0 s'],
  ])('of %d seconds', (seconds, onTheClock, length) => {
    expect([clock(seconds), inSeconds(seconds)]).toEqual([onTheClock, length]);
  });
});
