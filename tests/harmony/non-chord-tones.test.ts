import { describe, test } from 'vitest';
import { nonChordTones } from '../fixtures/harmony/non-chord-tone-pieces.js';
import { checkNonChordTones } from './check-non-chord-tones.js';
import { rowsOf } from './table.js';

describe('the notes of short pieces', () => {
  const named = rowsOf(nonChordTones, 13, row => row.title);
  test.each(named.filter(([, row]) => row.open === undefined))('%s', (_title, row) => {
    checkNonChordTones(row);
  });
});
