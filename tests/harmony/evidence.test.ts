import { describe, expect, test } from 'vitest';
import { placeAt, printFraction, printPitch } from '../../src/score/index.js';
import { closes } from '../fixtures/harmony/cadence-pieces.js';
import { nonChordTones } from '../fixtures/harmony/non-chord-tone-pieces.js';
import { abcOf } from '../fixtures/harmony/pieces.js';
import type { Evidence, Piece } from '../fixtures/harmony/pieces.js';
import { noteAt, scoreOf, unitOf } from './pieces.js';
import { rowsOf } from './table.js';

/** Each note that a source points at sounds where it says, in the voice that it says. */
function allSound(piece: Piece, evidence: readonly Evidence[]): void {
  const score = scoreOf(abcOf(piece));
  const sounding = evidence.filter(at => noteAt(score, at, unitOf(piece)) !== undefined);
  expect(evidence.length).toBeGreaterThan(0);
  expect(sounding).toEqual(evidence);
}

describe('the notes of the cadences', () => {
  test.each(rowsOf(closes, 7, row => row.title))('%s', (_title, { piece, evidence = [] }) => {
    allSound(piece, evidence);
  });
});

describe('the notes of the non-chord tones', () => {
  test.each(rowsOf(nonChordTones, 13, row => row.title))('%s', (_title, { piece, roles }) => {
    const cited = roles.flatMap(({ at, preparation, resolution }) =>
      [at, preparation, resolution].filter(each => each !== undefined),
    );
    allSound(piece, cited);
  });
});

describe('a pickup is bar 0 and the first full bar is bar 1', () => {
  // MusicXML 4.0, attributes number and implicit of a measure; RomanText of When in Rome: an incomplete first measure is m0. They count
  // the pickup's beats from its own first note; here beats are metrical, so the one quarter before 3/4 is beat 3 of bar 0.
  const score = scoreOf('X:1\nM:3/4\nL:1/4\nK:C\nG | c2 e | d2 B | c2 |\n');
  test.each([
    ['G4', 0, '3'],
    ['C5', 1, '1'],
    ['E5', 1, '3'],
    ['B4', 2, '3'],
  ])('the first %s is in bar %i on beat %s', (pitch, bar, beat) => {
    const note = score.notes.find(each => printPitch(each.pitch) === pitch);
    const place = note === undefined ? undefined : placeAt(score, note.onset);
    expect([place?.bar, place === undefined ? '' : printFraction(place.beat)]).toEqual([bar, beat]);
  });
});
