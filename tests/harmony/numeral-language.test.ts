import fc from 'fast-check';
import { Note } from 'tonal';
import { describe, expect, test } from 'vitest';
import { isUnread, key, parseRomanNumeral, printRomanNumeral, realize } from '../../src/harmony/index.js';
import type { Figures, Key, RomanNumeral } from '../../src/harmony/index.js';
import { pitchClass, printPitchClass, transposed } from '../../src/score/index.js';
import { chordNamed, numeralNamed } from './reading.js';

describe('a numeral is read in every form that teachers write', () => {
  // Figures with and without slash, half-diminished as `/o`, `Cad64`: RomanText, When in Rome. Raised and lowered figures, signs in
  // Unicode, `Ger+6`: common practice of textbooks and of note processors.
  const rows: readonly (readonly [written: string, plain: string])[] = [
    ['V6/5', 'V65'],
    ['V4/2', 'V42'],
    ['V2', 'V42'],
    ['I5/3', 'I'],
    ['I53', 'I'],
    ['I5', 'I'],
    ['I6/3', 'I6'],
    ['I6/4', 'I64'],
    ['V6/5/V', 'V65/V'],
    ['V6/V', 'V6/V'],
    ['V⁷', 'V7'],
    ['V⁶₅', 'V65'],
    ['V₆₅/V', 'V65/V'],
    ['V⁴₃/ii', 'V43/ii'],
    ['vii°7', 'viio7'],
    ['viiº7', 'viio7'],
    ['vii⁰7', 'viio7'],
    ['vii°⁷/V', 'viio7/V'],
    ['viiø7', 'viiø7'],
    ['viiØ65', 'viiø65'],
    ['vii/o7', 'viiø7'],
    ['vii/o65/V', 'viiø65/V'],
    ['♭VI', 'bVI'],
    ['♭♭VII', 'bbVII'],
    ['♯iv°7', '#ivo7'],
    ['V7/♭VI', 'V7/bVI'],
    ['IM7', 'IM7'],
    ['Imaj7', 'IM7'],
    ['IVMaj7', 'IVM7'],
    ['III+6', 'III+6'],
    ['V+7', 'V+7'],
    ['V9', 'V9'],
    ['V7/V/V', 'V7/V/V'],
    ['viio7/V/ii', 'viio7/V/ii'],
    ['N', 'N'],
    ['N6', 'N6'],
    ['V7/N', 'V7/N'],
    ['It', 'It6'],
    ['It6', 'It6'],
    ['It+6', 'It6'],
    ['It53', 'It53'],
    ['Fr', 'Fr43'],
    ['Fr+6', 'Fr43'],
    ['Fr4/3', 'Fr43'],
    ['Ger6', 'Ger65'],
    ['Ger+6', 'Ger65'],
    ['Ger6/5', 'Ger65'],
    ['Sw', 'Sw43'],
    ['Ger65/V', 'Ger65/V'],
    ['cad', 'cad64'],
    ['cad6/4', 'cad64'],
    ['Cad64', 'cad64'],
    ['ct°7', 'CTo7'],
    ['CTo4/2/V', 'CTo42/V'],
  ];
  test.each(rows)('%s is %s', (written, plain) => {
    expect(printRomanNumeral(numeralNamed(written))).toBe(plain);
    expect(numeralNamed(plain)).toEqual(numeralNamed(written));
  });
});

describe('what is no numeral stops at the fault and says what could stand there', () => {
  const head = ['a Roman numeral I to VII', 'N6', 'It6', 'Fr43', 'Ger65', 'cad64', 'CTo7'];
  const figures = ['figures 6, 64, 7, 65, 43, 42 or 9'];
  const more = ['figures', '`/` and the numeral that the chord is applied to', 'the end of the numeral'];
  const rows: readonly (readonly [text: string, at: number, expected: readonly string[]])[] = [
    ['', 0, head],
    ['H7', 0, head],
    ['7', 0, head],
    ['VIII', 0, head],
    ['Iv', 0, head],
    ['b', 0, head],
    ['bN6', 0, ['a Roman numeral I to VII']],
    ['V8', 1, figures],
    ['V65432', 1, figures],
    ['viio8', 4, figures],
    ['V⁸', 1, figures],
    ['Vsus', 1, more],
    ['V7 ', 2, more],
    ['V 7', 1, more],
    ['V7b', 2, more],
    ['V7/', 3, head],
    ['V7/H', 3, head],
    ['V7/V/', 5, head],
    ['V7/V8', 4, figures],
    ['V7//V', 3, head],
    ['It5', 2, ['figures 6 or 64']],
    ['It42', 2, ['figures 6 or 64']],
    ['Ger64', 3, ['figures 65, 7, 43 or 42']],
    ['N42', 1, ['figures 6, 64 or 7']],
    ['cad7', 3, ['figures 64']],
  ];
  test.each(rows)('"%s" at %i', (text, at, expected) => {
    expect(parseRomanNumeral(text)).toEqual({ at, expected });
  });
});

const anyFigures = fc.constantFrom<Figures>('', '6', '64', '7', '65', '43', '42', '9');

const plainNumeral: fc.Arbitrary<RomanNumeral> = fc.oneof(
  {
    weight: 5,
    arbitrary: fc.record({
      kind: fc.constant('degree' as const),
      alter: fc.integer({ min: -2, max: 2 }),
      degree: fc.integer({ min: 1, max: 7 }),
      upper: fc.boolean(),
      quality: fc.constantFrom('' as const, 'o' as const, 'ø' as const, '+' as const),
      majorSeventh: fc.boolean(),
      figures: anyFigures,
    }),
  },
  ...(
    [
      ['Neapolitan', 2, ['', '6', '64', '7']],
      ['Italian', 4, ['', '6', '64']],
      ['French', 4, ['43', '65', '7', '42']],
      ['German', 4, ['65', '43', '7', '42']],
      ['Swiss', 4, ['43', '65', '7', '42']],
      ['cadential', 1, ['64']],
    ] as const
  ).map(([kind, degree, figures]) => ({
    weight: 1,
    arbitrary: fc.record({
      kind: fc.constant(kind),
      alter: fc.constant(0),
      degree: fc.constant(degree),
      upper: fc.constant(true),
      quality: fc.constant('' as const),
      majorSeventh: fc.constant(false),
      figures: fc.constantFrom<Figures>(...figures),
    }),
  })),
);

const numeral: fc.Arbitrary<RomanNumeral> = fc
  .array(plainNumeral, { minLength: 1, maxLength: 4 })
  .map(([first, ...targets]): RomanNumeral => {
    const chain = [first, ...targets].filter(each => each !== undefined);
    return chain.reduceRight((target, own) => ({ ...own, target }));
  });

const anyKey: fc.Arbitrary<Key> = fc
  .tuple(fc.integer({ min: -7, max: 7 }), fc.constantFrom('major' as const, 'minor' as const))
  .map(([fifths, mode]) => key(pitchClass(mode === 'major' ? fifths : fifths + 3), mode));

describe('laws', () => {
  test('what is printed is read as the same numeral', () => {
    fc.assert(
      fc.property(numeral, of => {
        expect(parseRomanNumeral(printRomanNumeral(of))).toEqual(of);
      }),
    );
  });

  test('any text is read as a numeral that printing keeps, or stopped at a place in it with an expectation', () => {
    const pieces = 'V vii IV i II b ♭ # o ø + ° M maj 7 6 5 4 3 2 9 ⁶ / N It Ger+ Fr cad x'.split(' ');
    const text = fc
      .array(fc.constantFrom(...pieces, ' '), { maxLength: 7 })
      .map(all => all.join(''))
      .filter(joined => !/^\s/.test(joined));
    const cMajor = key(pitchClass(0), 'major');
    fc.assert(
      fc.property(text, written => {
        const read = parseRomanNumeral(written);
        if (isUnread(read)) {
          expect(read.at).toBeGreaterThanOrEqual(0);
          expect(read.at).toBeLessThanOrEqual(written.length);
          expect(read.expected.length).toBeGreaterThan(0);
        } else {
          expect(realize(numeralNamed(printRomanNumeral(read)), cMajor)).toEqual(realize(read, cMajor));
        }
      }),
      { numRuns: 1000 },
    );
  });

  test('a numeral in a transposed key names the transposed chord', () => {
    const shift = fc.integer({ min: -6, max: 6 });
    fc.assert(
      fc.property(numeral, anyKey, shift, (of, from, fifths) => {
        const here = realize(of, from);
        const there = realize(of, key(transposed(from.tonic, fifths), from.mode));
        // The reference library moves each tone by as many fifths.
        const moved = here.tones.map(tone => Note.transposeFifths(printPitchClass(tone), fifths));
        expect(there.tones.map(printPitchClass)).toEqual(moved);
        expect([there.quality, there.inversion]).toEqual([here.quality, here.inversion]);
      }),
    );
  });

  test('an applied chord is the plain chord in the key of its target', () => {
    const rows = [
      ['V7/V', 'C major', 'V7', 'G major'],
      ['V7/ii', 'C major', 'V7', 'D minor'],
      ['viio7/vi', 'C major', 'viio7', 'A minor'],
      ['V65/iv', 'E minor', 'V65', 'A minor'],
      ['V7/V/V', 'C major', 'V7', 'D major'],
      ['Ger65/V', 'A minor', 'Ger65', 'E major'],
      ['V7/N', 'A minor', 'V7', 'Bb major'],
      ['V7/bVI', 'C major', 'V7', 'Ab major'],
    ] as const;
    for (const [applied, home, plain, goal] of rows)
      expect(chordNamed(applied, home), applied).toEqual(chordNamed(plain, goal));
  });
});
