import { describe, expect, test } from 'vitest';
import { printPitchClass } from '../../src/score/index.js';
import { nonChordTones } from '../fixtures/harmony/non-chord-tone-pieces.js';
import { checkNonChordTones } from './check-non-chord-tones.js';
import { analysed } from './pieces.js';
import { rowsOf } from './table.js';

describe('the notes of short pieces', () => {
  test.each(rowsOf(nonChordTones, 13, row => row.title))('%s', (_title, row) => {
    checkNonChordTones(row);
  });
});

test('a tone that stays under changing harmonies is a pedal point', () => {
  const row = nonChordTones.find(({ title }) => title.startsWith('a pedal'));
  if (row === undefined) throw new Error('no pedal');
  const { pedals, score } = analysed(row.piece);
  expect(
    pedals.map(({ tone, position, start, end }) => [printPitchClass(tone), position, start, end]),
  ).toEqual([['C', 'bass', { n: 0, d: 1 }, score.length]]);
});
