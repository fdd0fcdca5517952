import { describe, expect, test } from 'vitest';
import { closes, irregularResolution, periods, progressions } from '../fixtures/harmony/cadence-pieces.js';
import { compare } from '../../src/score/index.js';
import type { Fraction } from '../../src/score/index.js';
import { checkCadence, judgedInPassing } from './check-cadence.js';
import { analysed } from './pieces.js';
import { rowsOf } from './table.js';

describe.each([
  ['a progression at the end of a phrase', progressions, 12],
  ['the close alone', closes, 7],
] as const)('%s', (_, rows, count) => {
  test.each(rowsOf(rows, count, row => `${row.title} in ${row.key}`))('%s', (_title, row) => {
    checkCadence(row);
  });
});

test('an applied dominant that goes to another chord than its goal keeps its numeral', () => {
  const { segments } = analysed(irregularResolution);
  expect(segments.map(({ roman }) => roman)).toEqual('I IV V I V7/vi IV V7 I'.split(' '));
});

test.each(['perfect authentic', 'half', 'deceptive', 'plagal'] as const)(
  'V in the middle of a phrase is no %s cadence',
  kind => {
    expect(judgedInPassing(kind)).not.toContain('supported');
  },
);

test.each(rowsOf(periods, 5, ({ title }) => title))(
  'the cadences of a period are its two ends: %s',
  (_, row) => {
    const { score, cadences } = analysed(row.piece);
    const barOf = (onset: Fraction): number =>
      score.bars.findLast(({ start }) => compare(start, onset) <= 0)?.number ?? 0;
    expect(Object.fromEntries(cadences.map(({ kind, onset }) => [barOf(onset), kind]))).toEqual(row.cadences);
  },
);

test('the major tonic that ends a piece in minor is I, no dominant of iv (common practice: the Picardy third)', () => {
  const { segments } = analysed({
    key: 'Am',
    meter: '4/4',
    unit: '1/4',
    voices: [
      'c2 d2 | c2 B2 | A4 |]',
      'A2 A2 | A2 ^G2 | ^C4 |]',
      'E2 F2 | E2 D2 | E4 |]',
      'A,2 D,2 | E,2 E,2 | A,,4 |]',
    ],
  });
  expect(segments.at(-1)?.roman).toBe('I');
});
