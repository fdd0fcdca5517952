import { describe, expect, test } from 'vitest';
import { judgeCadence, printChord } from '../../src/harmony/index.js';
import type { CadenceKind } from '../../src/harmony/index.js';
import { equals } from '../../src/score/index.js';
import { closes, irregularResolution, progressions } from '../fixtures/harmony/cadence-pieces.js';
import { analysed, momentOf, unitOf } from './pieces.js';
import { chordNamed, keyNamed } from './reading.js';
import { rowsOf } from './table.js';

const kinds: readonly CadenceKind[] = [
  'perfect authentic',
  'imperfect authentic',
  'half',
  'deceptive',
  'plagal',
  'evaded',
];

describe.each([
  ['a progression at the end of a phrase', progressions, 12],
  ['the close alone', closes, 7],
] as const)('%s', (_, rows, count) => {
  test.each(rowsOf(rows, count, row => `${row.title} in ${row.key}`))('%s', (_title, row) => {
    const analysis = analysed(row.piece);
    const key = keyNamed(row.key);
    const arrival = momentOf(analysis.score, row.arrival[0], row.arrival[1], unitOf(row.piece));
    const judged = (kind: CadenceKind | 'authentic'): string =>
      judgeCadence(analysis, { start: arrival, end: arrival, kind, key }).outcome;

    expect
      .soft(Object.fromEntries(kinds.map(kind => [kind, judged(kind) === 'supported'])))
      .toEqual(Object.fromEntries(kinds.map(kind => [kind, kind === row.kind])));
    expect.soft(judged('authentic') === 'supported').toBe(row.kind.endsWith('authentic'));

    // A close without context can be read in more keys than one, so its harmonies are compared as chords.
    const numerals = row.progression.split(' ');
    const last = analysis.segments.slice(-numerals.length);
    expect
      .soft(last.map(({ chord }) => printChord(chord)))
      .toEqual(numerals.map(numeral => printChord(chordNamed(numeral, row.key))));
    if (rows !== progressions) return;

    expect.soft(last.map(({ roman }) => roman)).toEqual(numerals);
    const listed = analysis.cadences
      .filter(({ onset }) => equals(onset, arrival))
      .map(({ kind, phrygian, key: of }) => ({ kind, phrygian, of }));
    const expected = [{ kind: row.kind, phrygian: row.phrygian ?? false, of: key }];
    expect.soft([expected, ...(row.disputed ? [[]] : [])]).toContainEqual(listed);
  });
});

test('an applied dominant that goes to another chord than its goal keeps its numeral', () => {
  const { segments } = analysed(irregularResolution);
  expect(segments.map(({ roman }) => roman)).toEqual('I IV V I V7/vi IV V7 I'.split(' '));
});

describe('a dominant on its way to the tonic closes nothing', () => {
  // Common practice: a half cadence is the end of a phrase.
  const [piece] = progressions;
  test.each(['half', 'deceptive', 'plagal'] as const)('no %s cadence there', kind => {
    if (piece === undefined) throw new Error('no piece');
    const analysis = analysed(piece.piece);
    const [start, end] = [1, 3].map(beat => momentOf(analysis.score, 2, beat, unitOf(piece.piece)));
    if (start === undefined || end === undefined) throw new Error('no such beats');
    const key = keyNamed('C');
    expect(judgeCadence(analysis, { start, end, kind, key }).outcome).not.toBe('supported');
    expect(judgeCadence(analysis, { start, end: start, kind, key }).outcome).not.toBe('supported');
  });
});
