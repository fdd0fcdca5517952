import { Note } from 'tonal';
import { describe, expect, test } from 'vitest';
import {
  bassOf,
  keyOfTarget,
  nameChord,
  printChord,
  printRomanNumeral,
  sameChord,
} from '../../src/harmony/index.js';
import type { Chord } from '../../src/harmony/index.js';
import { chromaOf, printPitchClass, spell } from '../../src/score/index.js';
import { chordNames } from '../fixtures/harmony/chord-names.js';
import {
  applied,
  augmentedSixths,
  cadential,
  commonTone,
  contrasts,
  diatonic,
  enharmonic,
  figuredBass,
  mixture,
  neapolitan,
} from '../fixtures/harmony/numerals.js';
import type { NumeralRow } from '../fixtures/harmony/numerals.js';
import { degreeTables, syllables } from '../fixtures/harmony/scale-degrees.js';
import {
  chordNamed,
  keyNamed,
  numeralNamed,
  printTones,
  symbolNamed,
  toneNamed,
  tonesNamed,
} from './reading.js';
import { rowsOf } from './table.js';

const nameOf = (row: NumeralRow): string => `${row.numeral} in ${row.key}`;

/** Tones in close position above the bass, as figured bass counts them: sorted by letter from the bass up. */
function fromBass(chord: Chord): string {
  const above = (tone: (typeof chord.tones)[number]): number =>
    ('CDEFGAB'.indexOf(spell(tone).letter) - 'CDEFGAB'.indexOf(spell(bassOf(chord)).letter) + 7) % 7;
  return printTones([...chord.tones].sort((a, b) => above(a) - above(b)));
}

const sounds = (notes: string): readonly number[] =>
  tonesNamed(notes)
    .map(chromaOf)
    .sort((a, b) => a - b);

/** The chord with its bass, as one comparable line. */
const whole = (chord: Chord): string =>
  `${printTones(chord.tones)}, ${chord.quality}, bass ${printPitchClass(bassOf(chord))}`;

const tertian = [
  ['diatonic chords', diatonic, 22],
  ['mode mixture', mixture, 5],
  ['the cadential six-four', cadential, 1],
  ['applied chords', applied, 12],
  ['chords that are taken for each other', contrasts, 3],
  ['the Neapolitan', neapolitan, 2],
  ['diminished sevenths that sound alike', enharmonic, 3],
  ['common-tone diminished sevenths', commonTone, 3],
  ['figured bass', figuredBass, 4],
] as const;

describe.each(tertian)('%s', (_, rows, count) => {
  test.each(rowsOf(rows, count, nameOf))('%s', (_title, row) => {
    const realized = chordNamed(row.numeral, row.key);
    expect(printTones(realized.tones)).toBe(row.notes);
    expect(printPitchClass(bassOf(realized))).toBe(row.bass);
    expect(nameChord(tonesNamed(row.notes), toneNamed(row.bass)).map(whole)).toContain(whole(realized));
    if (row.symbol !== undefined) {
      expect(printChord(realized)).toBe(row.symbol);
      expect(whole(symbolNamed(row.symbol))).toBe(whole(realized));
    }
    if (row.alsoRead !== undefined) expect(whole(chordNamed(row.alsoRead, row.key))).toBe(whole(realized));
  });
});

describe('augmented sixths', () => {
  test.each(rowsOf(augmentedSixths, 7, nameOf))('%s', (_title, row) => {
    const realized = chordNamed(row.numeral, row.key);
    expect(fromBass(realized)).toBe(row.notes);
    expect(printPitchClass(bassOf(realized))).toBe(row.bass);
    expect(nameChord(tonesNamed(row.notes)).map(whole)).toEqual([whole(realized)]);
  });
});

describe('a chord that sounds the same is spelled for its own key', () => {
  const rows = [...augmentedSixths, ...enharmonic].filter(row => row.soundsLike !== undefined);
  test.each(rowsOf(rows, 4, nameOf))('%s', (_title, { numeral, key, notes, soundsLike }) => {
    if (soundsLike === undefined) throw new Error('no other spelling');
    const other = chordNamed(soundsLike.numeral, soundsLike.key);
    expect(printTones(other.tones)).toBe(soundsLike.notes);
    expect(sounds(soundsLike.notes)).toEqual(sounds(notes));
    expect(sameChord(other, chordNamed(numeral, key))).toBe(false);
  });
});

describe('an applied chord leads where its source resolves it', () => {
  const rows = applied.filter(row => row.resolvesTo !== undefined);
  test.each(rowsOf(rows, 9, nameOf))('%s', (_title, { numeral, key, resolvesTo = '' }) => {
    const { target } = numeralNamed(numeral);
    if (target === undefined) throw new Error('not an applied chord');
    const goal = keyOfTarget(target, keyNamed(key));
    // The leading tone of the goal is in the chord and its tonic in the resolution; V of the goal counts as on the way there.
    expect(printTones(chordNamed(numeral, key).tones).split(' ')).toContain(
      Note.transpose(printPitchClass(goal.tonic), '7M'),
    );
    const onTheWay = numeralNamed(resolvesTo).target;
    const arrival = onTheWay === undefined ? resolvesTo : printRomanNumeral(onTheWay);
    expect(printPitchClass(chordNamed(arrival, key).root)).toBe(printPitchClass(goal.tonic));
  });
});

describe('figures are read in every writing of the source', () => {
  const rows = figuredBass.map(row => ({ ...row, figures: row.figures ?? [] }));
  test.each(rowsOf(rows, 4, nameOf))('%s', (_title, { numeral, key, figures }) => {
    const name = numeral.replace(/\d+$/, '');
    expect(figures.length).toBeGreaterThan(0);
    for (const written of figures)
      expect(whole(chordNamed(name + written, key))).toBe(whole(chordNamed(numeral, key)));
  });
});

describe('what a 7 on I means is a convention', () => {
  // Diatonic seventh: Open Music Theory, Triads and seventh chords, and RomanText; minor seventh unless M is written: Hutchinson, Figured Bass.
  test.each([
    ['I7', 'major', 'C E G B'],
    ['I7', 'minor', 'C E G Bb'],
    ['IM7', 'major', 'C E G B'],
    ['IM7', 'minor', 'C E G B'],
    ['IV7', 'major', 'F A C E'],
    ['IV7', 'minor', 'F A C Eb'],
    ['V7', 'major', 'G B D F'],
    ['V7', 'minor', 'G B D F'],
  ] as const)('%s where a plain 7 is %s: %s', (numeral, convention, notes) => {
    expect(printTones(chordNamed(numeral, 'C', convention).tones)).toBe(notes);
  });
});

describe('spelled notes get their name', () => {
  test.each(rowsOf(chordNames, 9, row => `${row.notes} over ${row.bass}`))('%s', (_title, row) => {
    const named = nameChord(tonesNamed(row.notes), toneNamed(row.bass));
    // The three tones of an augmented triad stack in thirds from one of them only, once they are spelled.
    expect(named.map(chord => [printChord(chord), chord.quality])).toEqual([[row.symbol, row.quality]]);
    expect(whole(symbolNamed(row.symbol))).toBe(named.map(whole).join());
  });

  test('in any order and with doublings', () => {
    expect(nameChord(tonesNamed('E G C E C'), toneNamed('E')).map(printChord)).toEqual(['C/E']);
  });

  test('a set that stacks in no way has none', () => {
    expect(nameChord(tonesNamed('C D E'))).toEqual([]);
  });
});

describe('the chords of a key by scale degree, in nine keys of each mode', () => {
  const tonics = {
    major: ['C', 'G', 'D', 'A', 'E', 'F', 'Bb', 'Eb', 'Ab'],
    minor: ['A', 'E', 'B', 'F#', 'C#', 'D', 'G', 'C', 'F'],
  };
  const rows = degreeTables.flatMap(({ chords, ...table }) =>
    Object.entries(chords).map(([numeral, degrees]) => ({ ...table, numeral, degrees })),
  );
  const nameOfDegrees = (row: (typeof rows)[number]): string =>
    `${row.title}: ${row.numeral} = ${row.degrees}`;
  test.each(rowsOf(rows, 39, nameOfDegrees))('%s', (_title, { numeral, degrees, modes, stacked }) => {
    for (const mode of modes) {
      for (const tonic of tonics[mode]) {
        const expected = degrees.split(' ').map(name => Note.transpose(tonic, syllables[name] ?? ''));
        const realized = printTones(chordNamed(numeral, `${tonic} ${mode}`).tones).split(' ');
        if (stacked) expect(realized, `${tonic} ${mode}`).toEqual(expected);
        else expect([...realized].sort(), `${tonic} ${mode}`).toEqual([...expected].sort());
      }
    }
  });
});
