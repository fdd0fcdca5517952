import { describe, test } from 'vitest';
import { closes, progressions } from '../fixtures/harmony/cadence-pieces.js';
import { checkCadence } from './check-cadence.js';
import { rowsOf } from './table.js';

describe.each([
  ['a progression at the end of a phrase', progressions, 12],
  ['the close alone', closes, 7],
] as const)('%s', (_, rows, count) => {
  const named = rowsOf(rows, count, row => `${row.title} in ${row.key}`);
  test.each(named.filter(([, row]) => row.open !== undefined))('%s', (_title, row) => {
    checkCadence(row);
  });
});
