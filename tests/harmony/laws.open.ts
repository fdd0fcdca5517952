import { readFileSync } from 'node:fs';
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
  printChord,
  printKey,
  segmentAt,
} from '../../src/harmony/index.js';
import type { Analysis, CadenceKind, Key } from '../../src/harmony/index.js';
import {
  fraction,
  multiply,
  pitchClass,
  printFraction,
  printPitchClass,
  transposed,
  zero,
} from '../../src/score/index.js';
import type { Fraction, Score } from '../../src/score/index.js';
import { closes, progressions } from '../fixtures/harmony/cadence-pieces.js';
import { modulation, tonicization } from '../fixtures/harmony/key-pieces.js';
import { nonChordTones } from '../fixtures/harmony/non-chord-tone-pieces.js';
import { abcOf } from '../fixtures/harmony/pieces.js';
import { scoreOf } from './pieces.js';
import {
  doublable,
  doubleInside,
  doubleValues,
  respread,
  splitVoices,
  transposeScore,
} from './transformations.js';
import type { Shift } from './transformations.js';

const sample = (name: string): Score =>
  scoreOf(readFileSync(new URL(`../../sample-lessons/${name}.abc`, import.meta.url), 'utf8'));

const samples = ['mill-road', 'long-table'].map((name): readonly [string, Score] => [name, sample(name)]);
const short = [
  ...[...progressions, ...closes, ...nonChordTones].map(({ title, piece }) => ({ title, piece })),
  { title: 'a tonicization', piece: tonicization },
  { title: 'a modulation', piece: modulation },
].map(({ title, piece }): readonly [string, Score] => [title, scoreOf(abcOf(piece))]);
const pieces = [...samples, ...short];

/** Both samples stay within seven accidentals, whatever key they pass through. */
const shifts: readonly Shift[] = [
  { name: 'a minor second', fifths: -5, semitones: 1 },
  { name: 'a major second', fifths: 2, semitones: 2 },
  { name: 'a minor third', fifths: -3, semitones: 3 },
  { name: 'a major third', fifths: 4, semitones: 4 },
  { name: 'a fourth', fifths: -1, semitones: 5 },
  { name: 'a fifth down', fifths: -1, semitones: -7 },
];

/** How an account of the rewritten music is brought back to the original: fifths to move by, factor of all times. */
interface Measure {
  readonly fifths: number;
  readonly factor: Fraction;
}

const asWritten: Measure = { fifths: 0, factor: fraction(1) };

const moved = (of: Key, fifths: number): Key => key(transposed(of.tonic, fifths), of.mode);

/** The harmonies with their places and keys, a line each. */
const harmoniesOf = ({ segments }: Analysis, { fifths, factor }: Measure = asWritten): readonly string[] =>
  segments.map(({ start, end, chord: { root, quality, inversion }, roman, key: of, function: role }) =>
    [
      `${printFraction(multiply(start, factor))}-${printFraction(multiply(end, factor))}`,
      printChord(chord(transposed(root, fifths), quality, inversion)),
      roman,
      printKey(moved(of, fifths)),
      role,
    ].join(' '),
  );

/** All that the analysis says. */
function accountOf(analysis: Analysis, measure: Measure = asWritten): readonly string[] {
  const { fifths, factor } = measure;
  const time = (at: Fraction): string => printFraction(multiply(at, factor));
  return [
    ...harmoniesOf(analysis, measure),
    ...analysis.segments.flatMap(({ nonChordTones: named, unexplained }) => [
      ...named.map(({ note, kind, figure, chromatic }) => [note, kind, figure, chromatic].join(' ')),
      ...unexplained.map(note => `${String(note)} unexplained`),
    ]),
    ...analysis.cadences.map(
      ({ kind, onset, key: of, phrygian }) =>
        `${time(onset)} ${kind} ${printKey(moved(of, fifths))} ${String(phrygian)}`,
    ),
    ...analysis.pedals.map(
      ({ start, end, tone, notes }) =>
        `${time(start)}-${time(end)} pedal ${printPitchClass(transposed(tone, fifths))} ${notes.join(' ')}`,
    ),
    ...analysis.sequences.map(
      ({ start, unit, statements, step, real }) =>
        `${time(start)} sequence ${time(unit)} ${String(statements)} ${String(step)} ${String(real)}`,
    ),
  ];
}

test('the pieces are all there', () => {
  expect(pieces).toHaveLength(36);
});

describe.each(pieces)('%s', (_piece, score) => {
  const here = analyse(score);

  // The short pieces for two of the moves: they are many.
  const moves = samples.some(([, sample]) => sample === score) ? shifts : shifts.slice(2, 4);
  test.each(moves.map(shift => [shift.name, shift] as const))(
    'moved by %s has the same numerals',
    (_, shift) => {
      const there = analyse(transposeScore(score, shift));
      expect(accountOf(there, { fifths: -shift.fifths, factor: fraction(1) })).toEqual(accountOf(here));
    },
  );

  test('in doubled note values says the same', () => {
    const there = analyse(doubleValues(score));
    expect(accountOf(there, { fifths: 0, factor: fraction(1, 2) })).toEqual(accountOf(here));
  });

  test('says the same on as many staves as voices', () => {
    expect(accountOf(analyse(respread(score)))).toEqual(accountOf(here));
  });

  test('has the same harmonies when its chords stand in a voice of their own', () => {
    expect(harmoniesOf(analyse(splitVoices(score)))).toEqual(harmoniesOf(here));
  });
});

describe('an inner octave doubling changes no harmony', () => {
  const doubled = pieces
    .map(([, score]) => ({ score, notes: doublable(score), here: harmoniesOf(analyse(score)) }))
    .filter(({ notes }) => notes.length > 0);

  test('of any notes', () => {
    const some = fc
      .constantFrom(...doubled)
      .chain(({ score, notes, here }) =>
        fc.subarray([...notes], { minLength: 1 }).map(chosen => ({ score, chosen, here })),
      );
    expect(doubled.length).toBeGreaterThan(10);
    fc.assert(
      fc.property(some, ({ score, chosen, here }) => {
        expect(harmoniesOf(analyse(doubleInside(score, chosen)))).toEqual(here);
      }),
      { numRuns: 40 },
    );
  });
});

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
      { numRuns: 100 },
    );
    expect(contradicted(outcomes)).toBeGreaterThan(40);
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
