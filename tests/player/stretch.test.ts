import { describe, expect, test } from 'vitest';
import { stretched } from '../../src/player/sound/stretch.js';

const sampleRate = 16_000;

function run(source: Float32Array, factor: number): Float32Array {
  const work = stretched(source, sampleRate, factor);
  for (;;) {
    const made = work.next();
    if (made.done === true) return made.value;
  }
}

/** Voiced speech in its simplest form: a fundamental with overtones that fall by 6 dB an octave. */
const voiced = (hertz: number, seconds: number): Float32Array =>
  Float32Array.from({ length: seconds * sampleRate }, (_, at) => {
    const turn = (2 * Math.PI * hertz * at) / sampleRate;
    return 0.4 * (Math.sin(turn) + Math.sin(2 * turn) / 2 + Math.sin(3 * turn) / 3);
  });

/** Frequency by the lag of greatest autocorrelation (a standard pitch estimate), refined by a parabola. */
function pitchOf(samples: Float32Array): number {
  const likeness = (lag: number): number => {
    let sum = 0;
    for (let at = 4000; at < 8000; at++) sum += (samples[at] ?? 0) * (samples[at + lag] ?? 0);
    return sum;
  };
  let best = 40;
  for (let lag = 40; lag < 250; lag++) if (likeness(lag) > likeness(best) * 1.0001) best = lag;
  const [before, here, after] = [likeness(best - 1), likeness(best), likeness(best + 1)];
  return sampleRate / (best + (before - after) / (2 * (before - 2 * here + after)));
}
const level = (samples: Float32Array): number =>
  Math.sqrt(samples.reduce((sum, one) => sum + one * one, 0) / samples.length);

describe('speech at another pace', () => {
  test.each([
    [110, 1.6],
    [110, 0.7],
    [160, 1.3],
    [220, 1.6],
    [220, 0.7],
  ])('%i Hz at %f times the length keeps its pitch and its loudness', (hertz, factor) => {
    const source = voiced(hertz, 2);
    const result = run(source, factor);
    expect(result.length).toBe(Math.round(source.length * factor));
    // 1 % is a sixth of a semitone.
    expect(Math.abs(pitchOf(result) / hertz - 1)).toBeLessThan(0.01);
    expect(Math.abs(level(result) / level(source) - 1)).toBeLessThan(0.1);
  });

  test('a click stays near its place in proportion', () => {
    const source = new Float32Array(2 * sampleRate);
    source[sampleRate] = 1;
    const result = run(source, 1.5);
    const loudest = result.reduce(
      (best, one, at) => (Math.abs(one) > Math.abs(result[best] ?? 0) ? at : best),
      0,
    );
    // Within one piece of 30 ms.
    expect(Math.abs(loudest / sampleRate - 1.5)).toBeLessThan(0.03);
  });

  test('silence stays silence', () => {
    expect(level(run(new Float32Array(8000), 1.3))).toBe(0);
  });
});
