import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { analyse } from '../../src/harmony/index.js';
import { fraction, isBefore } from '../../src/score/index.js';
import { accountOf, harmoniesOf } from './account.js';
import { pieces, samples, shifts } from './law-pieces.js';
import {
  doubleInside,
  doublable,
  doubleValues,
  respread,
  splitVoices,
  transposeScore,
} from './transformations.js';

describe.each(pieces)('%s', (_, score) => {
  const here = analyse(score);

  // The short pieces for two of the moves: they are many.
  const moves = samples.some(([, sample]) => sample === score) ? shifts : shifts.slice(2, 4);
  test.each(moves.map(shift => [shift.name, shift] as const))(
    'moved by %s has the same numerals',
    (_name, shift) => {
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

  test('has each cadence, with the chord before it, in an area of its key', () => {
    for (const { key, onset } of here.cadences)
      expect(
        here.keyAreas.filter(({ start, end }) => isBefore(start, onset) && isBefore(onset, end)),
      ).toMatchObject([{ key }]);
  });
});

describe('an octave doubling within the texture changes no harmony', () => {
  const doubled = pieces
    .map(([, score]) => ({ score, notes: doublable(score, 'inner'), here: harmoniesOf(analyse(score)) }))
    .filter(({ notes }) => notes.length > 0);

  test('of inner tones', () => {
    const some = fc
      .constantFrom(...doubled)
      .chain(({ score, notes, here }) =>
        fc.subarray([...notes], { minLength: 1 }).map(chosen => ({ score, chosen, here })),
      );
    expect(doubled.length).toBeGreaterThan(5);
    fc.assert(
      fc.property(some, ({ score, chosen, here }) => {
        expect(harmoniesOf(analyse(doubleInside(score, chosen)))).toEqual(here);
      }),
      { numRuns: 40 },
    );
  });

  test.each(pieces.filter(([, score]) => doublable(score, 'bass').length > 0))(
    'of the bass of %s',
    (_name, score) => {
      const here = harmoniesOf(analyse(score));
      const bass = doublable(score, 'bass');
      expect(harmoniesOf(analyse(doubleInside(score, bass)))).toEqual(here);
      for (const note of bass.slice(0, 12))
        expect(harmoniesOf(analyse(doubleInside(score, [note])))).toEqual(here);
    },
  );
});
