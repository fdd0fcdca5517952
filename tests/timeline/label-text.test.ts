import { describe, expect, test } from 'vitest';
import {
  chordLabel,
  figuresOf,
  romanLabel,
  withAccidentals,
  type LabelPart,
} from '../../src/timeline/index.js';

const text = (shown: string): LabelPart => ({ kind: 'text', text: shown });
const raised = (shown: string): LabelPart => ({ kind: 'raised', text: shown });
const stack = (...figures: string[]): LabelPart => ({ kind: 'stack', figures });

describe('numerals as they are printed', () => {
  // Figures stand above one another, the greater above: Open Music Theory 2, "Inversion and Figured Bass".
  // The degree sign for diminished and the crossed one for half-diminished: the same book, "Roman Numerals".
  // A numeral for the chord and one for its key with a slash between: the same book, "Tonicization".
  test.each<[string, readonly LabelPart[]]>([
    ['I', [text('I')]],
    ['i6', [text('i'), raised('6')]],
    ['V65', [text('V'), stack('6', '5')]],
    ['V43', [text('V'), stack('4', '3')]],
    ['viio7', [text('vii'), raised('°'), raised('7')]],
    ['viio6', [text('vii'), raised('°'), raised('6')]],
    ['viiø65', [text('vii'), raised('ø'), stack('6', '5')]],
    ['III+', [text('III'), raised('+')]],
    ['IM7', [text('I'), text('M'), raised('7')]],
    ['V7/V', [text('V'), raised('7'), text('/'), text('V')]],
    ['viio65/bVI', [text('vii'), raised('°'), stack('6', '5'), text('/'), text('♭VI')]],
    ['V7/V/V', [text('V'), raised('7'), text('/'), text('V'), text('/'), text('V')]],
    ['#iv', [text('♯iv')]],
    ['bVI', [text('♭VI')]],
    ['N6', [text('N'), raised('6')]],
    ['It6', [text('It'), raised('6')]],
    ['Ger65', [text('Ger'), stack('6', '5')]],
    ['Fr43', [text('Fr'), stack('4', '3')]],
    ['cad64', [text('cad'), stack('6', '4')]],
    ['CTo42/V', [text('CT'), raised('°'), stack('4', '2'), text('/'), text('V')]],
  ])('%s', (roman, parts) => {
    expect(romanLabel(roman)).toEqual(parts);
  });

  test('what is no numeral is printed as it stands', () => {
    expect(romanLabel('?!')).toEqual([text('?!')]);
  });

  test('figures alone are those of the chord, not of the key it is applied to', () => {
    expect(figuresOf('V65/ii')).toEqual([stack('6', '5')]);
    expect(figuresOf('I')).toEqual([]);
    expect(figuresOf('cad64')).toEqual([stack('6', '4')]);
  });
});

describe('real accidentals', () => {
  test.each([
    ['F#m7b5/A', 'F♯m7♭5/A'],
    ['Bb', 'B♭'],
    ['Bbm', 'B♭m'],
    ['Ebb major', 'E♭♭ major'],
    ['F## minor', 'F♯♯ minor'],
    ['C7#5', 'C7♯5'],
    ['G7b9', 'G7♭9'],
    ['German sixth on Eb', 'German sixth on E♭'],
    ['bar 3 has C#', 'bar 3 has C♯'],
    ['Abbey and Ebony', 'Abbey and Ebony'],
    ['bar 8b', 'bar 8b'],
  ])('%s', (ascii, printed) => {
    expect(withAccidentals(ascii)).toBe(printed);
  });
});

describe('chords under a staff', () => {
  // It, Fr and Ger are short for the augmented sixths in Open Music Theory 2, "Augmented Sixth Chords"; the bass behind a slash as in
  // chord symbols.
  test.each([
    ['F#m7b5/A', 'F♯m7♭5/A'],
    ['Bb', 'B♭'],
    ['Italian sixth on Ab', 'It6/A♭'],
    ['French sixth on C', 'Fr6/C'],
    ['German sixth on F#', 'Ger6/F♯'],
  ])('%s', (name, label) => {
    expect(chordLabel(name)).toBe(label);
  });
});
