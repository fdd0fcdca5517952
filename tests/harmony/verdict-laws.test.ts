import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  analyse,
  chord,
  chordQualities,
  judgeCadence,
  judgeChord,
  judgeKey,
  key,
  segmentAt,
} from '../../src/harmony/index.js';
import type { Analysis, CadenceKind } from '../../src/harmony/index.js';
import { pitchClass, transposed, zero } from '../../src/score/index.js';
import { moved } from './account.js';
import { samples, shifts } from './law-pieces.js';
import { transposeScore } from './transformations.js';

describe('a claim about transposed music gets the verdict that it had', () => {
  // As written and moved, each analysed once.
  const cases = samples.flatMap(([, score]) => {
    const here = analyse(score);
    return shifts.map(shift => ({
      fifths: shift.fifths,
      here,
      there: analyse(transposeScore(score, shift)),
    }));
  });
  /** A bar of one of the samples, its first beat, or two bars. */
  const place = fc
    .record({ of: fc.constantFrom(...cases), at: fc.nat(), length: fc.constantFrom(0, 1, 2) })
    .map(({ of, at, length }) => {
      const { bars, length: end } = of.here.score;
      const start = bars[at % bars.length]?.start ?? zero;
      return { ...of, start, end: length === 0 ? start : (bars[(at % bars.length) + length]?.start ?? end) };
    });
  const tone = fc.integer({ min: -4, max: 9 }).map(pitchClass);
  const anyKey = fc.record({ tonic: tone, mode: fc.constantFrom('major' as const, 'minor' as const) });
  const contradicted = (outcomes: readonly string[]): number =>
    outcomes.filter(outcome => outcome === 'contradicted').length;

  test('for chords', () => {
    const outcomes: string[] = [];
    fc.assert(
      fc.property(place, tone, fc.constantFrom(...chordQualities), (at, root, quality) => {
        const { start, end, fifths } = at;
        const judged = (analysis: Analysis, move: number): string =>
          judgeChord(analysis, { start, end, tones: chord(transposed(root, move), quality).tones }).outcome;
        const outcome = judged(at.here, 0);
        outcomes.push(outcome);
        expect(judged(at.there, fifths)).toBe(outcome);
      }),
      { numRuns: 200 },
    );
    expect(contradicted(outcomes)).toBeGreaterThan(100);
  });

  test('for keys', () => {
    const outcomes: string[] = [];
    fc.assert(
      fc.property(place, anyKey, (at, of) => {
        const { start, end, fifths } = at;
        const judged = (analysis: Analysis, move: number): string =>
          judgeKey(analysis, { start, end, key: moved(of, move) }).outcome;
        const outcome = judged(at.here, 0);
        outcomes.push(outcome);
        expect(judged(at.there, fifths)).toBe(outcome);
      }),
      { numRuns: 400 },
    );
    expect(contradicted(outcomes)).toBeGreaterThan(160);
  });

  test('for cadences', () => {
    const outcomes: string[] = [];
    const kind = fc.constantFrom<CadenceKind>(
      'perfect authentic',
      'imperfect authentic',
      'half',
      'deceptive',
    );
    fc.assert(
      fc.property(place, kind, (at, wanted) => {
        const { start, end, fifths } = at;
        const of = segmentAt(at.here, start)?.key ?? key(pitchClass(0), 'major');
        const judged = (analysis: Analysis, move: number): string =>
          judgeCadence(analysis, { start, end, kind: wanted, key: moved(of, move) }).outcome;
        const outcome = judged(at.here, 0);
        outcomes.push(outcome);
        expect(judged(at.there, fifths)).toBe(outcome);
      }),
      { numRuns: 100 },
    );
    expect(contradicted(outcomes)).toBeGreaterThan(30);
  });
});
