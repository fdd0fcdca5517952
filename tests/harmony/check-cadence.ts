import { expect } from 'vitest';
import { judgeCadence, printChord } from '../../src/harmony/index.js';
import type { CadenceKind } from '../../src/harmony/index.js';
import { equals } from '../../src/score/index.js';
import { progressions } from '../fixtures/harmony/cadence-pieces.js';
import type { CadenceRow } from '../fixtures/harmony/cadence-pieces.js';
import { analysed, momentOf, unitOf } from './pieces.js';
import { chordNamed, keyNamed } from './reading.js';

const kinds: readonly CadenceKind[] = [
  'perfect authentic',
  'imperfect authentic',
  'half',
  'deceptive',
  'plagal',
  'evaded',
];

/** The cadence is supported at its arrival, no other kind is, its chords are heard, and where a key stands before it the analysis lists it. */
export function checkCadence(row: CadenceRow): void {
  const analysis = analysed(row.piece);
  const key = keyNamed(row.key);
  const arrival = momentOf(analysis.score, row.arrival[0], row.arrival[1], unitOf(row.piece));
  const judged = (kind: CadenceKind | 'authentic'): string =>
    judgeCadence(analysis, { start: arrival, end: arrival, kind, key }).outcome;

  expect.soft(kinds.filter(kind => judged(kind) === 'supported')).toEqual([row.kind]);
  expect.soft(judged('authentic') === 'supported').toBe(row.kind.endsWith('authentic'));

  // A close without context can be read in more keys than one, so its harmonies are compared as chords.
  const numerals = row.progression.split(' ');
  const last = analysis.segments.slice(-numerals.length);
  expect
    .soft(last.map(({ chord }) => printChord(chord)))
    .toEqual(numerals.map(numeral => printChord(chordNamed(numeral, row.key))));
  if (!progressions.includes(row)) return;

  expect.soft(last.map(({ roman }) => roman)).toEqual(numerals);
  const listed = analysis.cadences
    .filter(({ onset }) => equals(onset, arrival))
    .map(({ kind, phrygian, key: of }) => ({ kind, phrygian, of }));
  const expected = [{ kind: row.kind, phrygian: row.phrygian ?? false, of: key }];
  expect.soft([expected, ...(row.disputed ? [[]] : [])]).toContainEqual(listed);
}

/**
 * What is said of a cadence where V, a half note among half notes, leads to I in the middle of a phrase, at the beat and over its span. Nothing
 * closes there (common practice: a half cadence is the end of a phrase).
 */
export function judgedInPassing(kind: CadenceKind): readonly string[] {
  const [row] = progressions;
  if (row === undefined) throw new Error('no piece');
  const analysis = analysed(row.piece);
  const [start, end] = [1, 3].map(beat => momentOf(analysis.score, 2, beat, unitOf(row.piece)));
  if (start === undefined || end === undefined) throw new Error('no such beats');
  return [start, end].map(
    until => judgeCadence(analysis, { start, end: until, kind, key: keyNamed('C') }).outcome,
  );
}
