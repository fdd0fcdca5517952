import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { sourceText } from '../../src/diagnostics/index.js';
import { analyse, key, chord, readKey } from '../../src/harmony/index.js';
import type { Segment } from '../../src/harmony/index.js';
import {
  degreeInWords,
  noteInWords,
  roleInWords,
  valueInWords,
} from '../../src/player/notation/note-in-words.js';
import { fraction, readPitch, readPitchClass, readScore } from '../../src/score/index.js';
import type { NoteId } from '../../src/score/index.js';

const tone = (name: string) => {
  const read = readPitchClass(name);
  if (read === undefined) throw new Error(name);
  return read;
};
const pitch = (name: string) => {
  const read = readPitch(name);
  if (read === undefined) throw new Error(name);
  return { id: 1 as NoteId, pitch: read };
};

const segment: Segment = {
  start: fraction(0),
  end: fraction(1),
  chord: chord(tone('A'), 'dominant seventh', 0),
  key: key(tone('D'), 'minor'),
  roman: 'V7',
  function: 'dominant',
  bass: tone('A'),
  chordTones: [],
  nonChordTones: [],
  unexplained: [],
  confidence: 1,
  rivals: [],
};

describe('the part of a note', () => {
  // Names of the degrees: Open Music Theory, "Introduction to Diatonic Intervals, Scale Degrees" (subtonic and leading tone in minor).
  test.each([
    ['C major', 'C4', 'degree 1 of C major, the tonic'],
    ['C major', 'B4', 'degree 7 of C major, the leading tone'],
    ['C major', 'F#4', 'degree 4 of C major, the raised subdominant'],
    ['D minor', 'C4', 'degree 7 of D minor, the subtonic'],
    ['D minor', 'C#4', 'degree 7 of D minor, the leading tone'],
    ['D minor', 'Bb3', 'degree 6 of D minor, the submediant'],
    ['D minor', 'Eb4', 'degree 2 of D minor, the lowered supertonic'],
    ['Bb major', 'F5', 'degree 5 of B♭ major, the dominant'],
  ])('in %s, %s', (home, name, words) => {
    const of = readKey(home);
    if (of === undefined) throw new Error(home);
    expect(degreeInWords(pitch(name), { key: of })).toBe(words);
  });

  // Members of a seventh chord: Open Music Theory, "Seventh Chords".
  test.each([
    ['A2', 'root of A7'],
    ['C#5', 'third of A7'],
    ['E4', 'fifth of A7'],
    ['G4', 'seventh of A7'],
    ['D5', 'foreign to A7'],
  ])('%s over A7', (name, words) => {
    expect(roleInWords(pitch(name), segment)).toBe(words);
  });

  test('a foreign tone is told by its kind', () => {
    const foreign = { note: 1 as NoteId, accented: true, chromatic: false };
    const withTone = (one: Segment['nonChordTones'][number]) => ({ ...segment, nonChordTones: [one] });
    expect(roleInWords(pitch('D5'), withTone({ ...foreign, kind: 'suspension', figure: '4-3' }))).toBe(
      'a suspension 4–3 over A7',
    );
    expect(roleInWords(pitch('D5'), withTone({ ...foreign, kind: 'appoggiatura' }))).toBe(
      'an appoggiatura over A7',
    );
  });

  test.each([
    [fraction(1, 4), 'quarter note'],
    [fraction(3, 8), 'dotted quarter note'],
    [fraction(1, 12), '1/12 of a whole note'],
    [fraction(0), 'grace note'],
  ])('length %#', (length, words) => {
    expect(valueInWords(length)).toBe(words);
  });

  test('a tone that is tied over is told by what it becomes there', () => {
    const path = 'sample-lessons/mill-road.abc';
    const { value: score } = readScore(sourceText(path, readFileSync(path, 'utf8')));
    const analysis = analyse(score);
    const told = [2, 3].map(bar => {
      const tied = score.notes.find(note => note.bar === bar && note.tiedFrom !== undefined);
      const struck = score.notes.find(note => note.bar === bar && note.tiedTo !== undefined);
      const note = bar === 2 ? struck : tied;
      return note === undefined ? '' : noteInWords(analysis, note, true);
    });
    expect(told).toEqual([
      'C sharp 5, quarter note, Piano, bar 2, beat 3: fifth of F♯7/C♯; degree 2 of B minor, the supertonic.',
      'C sharp 5, quarter note, tied over, Piano, bar 3, beat 1: a suspension 7–6 over Bm/D; degree 2 of B minor, the supertonic.',
    ]);
  });
});
