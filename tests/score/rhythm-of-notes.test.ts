import { describe, expect, it } from 'vitest';
import { lengthsOf, onsetsOf, pitchesOf, read, readMusic } from './reading.js';

const standard = (section: string): string => `ABC standard 2.1, section ${section}`;

/** Lengths in whole notes; the unit is a quarter in 4/4. */
const rows: readonly { readonly source: string; readonly music: string; readonly lengths: string }[] = [
  {
    source: standard('4.3'),
    music: 'C C2 C3 C/2 C/ C// C3/2 C/4',
    lengths: '1/4 1/2 3/4 1/8 1/8 1/16 3/8 1/16',
  },
  { source: standard('4.4, broken rhythm'), music: 'C>D C<D', lengths: '3/8 1/8 1/8 3/8' },
  {
    source: standard('4.4, double and triple dots'),
    music: 'C>>D C>>>D C<<D C<<<D',
    lengths: '7/16 1/16 15/32 1/32 1/16 7/16 1/32 15/32',
  },
  { source: standard('4.4 and 4.17'), music: '[CE]>[DF]', lengths: '3/8 3/8 1/8 1/8' },
  {
    source: standard('4.12, grace notes are transparent to broken rhythm'),
    music: 'C>{d}E',
    lengths: '3/8 1/8',
  },
  { source: standard('4.13'), music: '(2CD', lengths: '3/8 3/8' },
  { source: standard('4.13'), music: '(3CDE', lengths: '1/6 1/6 1/6' },
  { source: standard('4.13'), music: '(4CDEF', lengths: '3/16 3/16 3/16 3/16' },
  {
    source: standard('4.13, n is two in simple metre'),
    music: '(5CDEFG',
    lengths: '1/10 1/10 1/10 1/10 1/10',
  },
  { source: standard('4.13'), music: '(6CDEFGA', lengths: '1/12 1/12 1/12 1/12 1/12 1/12' },
  { source: standard('4.13, p:q:r'), music: '(3:2:2C2E', lengths: '1/3 1/6' },
  { source: standard('4.13, p:q'), music: '(5:4CDEFG A', lengths: '1/5 1/5 1/5 1/5 1/5 1/4' },
  { source: standard('4.13, p::r'), music: '(3::2C2E F', lengths: '1/3 1/6 1/4' },
  {
    source: standard('4.13, two digits are an extension of it'),
    music: '(10:8:10CDEFGABcde f',
    lengths: `${'1/5 '.repeat(10)}1/4`,
  },
  {
    source: standard('4.13 and 4.20, tuplet before grace note'),
    music: '(3{g}CDE F',
    lengths: '1/6 1/6 1/6 1/4',
  },
  { source: standard('4.13, rests count'), music: '(3CzE F', lengths: '1/6 1/6 1/4' },
  {
    source: standard('4.17, lengths inside and outside multiply'),
    music: '[C2E2G2]3',
    lengths: '3/2 3/2 3/2',
  },
  { source: standard('4.17, heads of their own lengths'), music: '[C4E]', lengths: '1 1/4' },
];

describe('length of a note', () => {
  it.each(rows)('$music lasts $lengths ($source)', ({ music, lengths }) => {
    expect(lengthsOf(readMusic(`${music}|\n`))).toBe(lengths);
  });

  it(`takes n as three in compound metre (${standard('4.13')})`, () => {
    const inSixEight = (music: string): string => lengthsOf(read(`X:1\nM:6/8\nL:1/8\nK:C\n${music}|`).score);
    expect(inSixEight('(5CDEFG')).toBe('3/40 3/40 3/40 3/40 3/40');
    expect(inSixEight('(7CDEFGAB')).toBe('3/56 3/56 3/56 3/56 3/56 3/56 3/56');
    // The other numbers mean the same in every metre.
    expect(inSixEight('(2CD')).toBe('3/16 3/16');
    expect(inSixEight('(3CDE')).toBe('1/12 1/12 1/12');
    expect(inSixEight('(4CDEF')).toBe('3/32 3/32 3/32 3/32');
    expect(inSixEight('(6CDEFGA')).toBe('1/24 1/24 1/24 1/24 1/24 1/24');
    expect(inSixEight('(8CDEFGABc')).toBe('3/64 3/64 3/64 3/64 3/64 3/64 3/64 3/64');
  });

  it(`takes the length of a chord from its first head (${standard('4.17')})`, () => {
    expect(onsetsOf(readMusic('[C2E]F|'))).toBe('0 0 1/2');
  });

  const units: readonly (readonly [string, string, string])[] = [
    ['M:4/4', '1/8', 'metre 1.0'],
    ['M:3/4', '1/8', 'metre 0.75'],
    ['M:2/4', '1/16', 'metre 0.5'],
    ['M:6/8', '1/8', 'metre 0.75'],
    ['M:C', '1/8', 'common time'],
    ['M:C|', '1/8', 'cut time'],
    ['M:none', '1/8', 'free metre'],
    ['M:3/8\nL:1/32', '1/32', 'L: given'],
  ];
  it.each(units)(`%s has the unit %s (%s; ${standard('3.1.7')})`, (fields, unit) => {
    expect(lengthsOf(read(`X:1\n${fields}\nK:C\nC|`).score)).toBe(unit);
  });

  it(`changes the unit inside the tune (${standard('3.2')})`, () => {
    expect(lengthsOf(readMusic('C [L:1/16] C C2|'))).toBe('1/4 1/16 1/8');
  });
});

/** Onsets in whole notes. */
const onsets: readonly { readonly source: string; readonly music: string; readonly onsets: string }[] = [
  { source: standard('4.5'), music: 'C z D x E', onsets: '0 1/2 1' },
  { source: standard('4.5, Z rests whole bars'), music: 'C4|Z2|D4', onsets: '0 3' },
  { source: standard('4.5, Z counts bars of the metre in force'), music: 'C4|[M:3/4]Z|D3', onsets: '0 7/4' },
  { source: standard('6.1.2, y is only space'), music: 'CyD', onsets: '0 1/4' },
  { source: standard('7.4, overlay'), music: 'C2 D2 & E F G A | B4', onsets: '0 0 1/4 1/2 1/2 3/4 1' },
  { source: standard('2.2.6, continuation of a line'), music: 'C D\\\nE F', onsets: '0 1/4 1/2 3/4' },
];

describe('onset of a note', () => {
  it.each(onsets)('$music begins at $onsets ($source)', ({ music, onsets: expected }) => {
    expect(onsetsOf(readMusic(`${music}|\n`))).toBe(expected);
  });

  it('reads a whole rest as what is written, in any metre', () => {
    // The parser takes a rest of a whole note for a bar; ABC 2.1, section 4.5, knows no such rule.
    expect(onsetsOf(read('X:1\nM:3/4\nL:1/4\nK:C\nz4 C|').score)).toBe('1');
  });

  it('puts a grace note at the onset of its main note, before it and without length', () => {
    const { notes } = readMusic('C {de}F|');
    expect(notes.map(({ onset, duration, grace }) => [onset.n, onset.d, duration.n, grace])).toEqual([
      [0, 1, 1, false],
      [1, 4, 0, true],
      [1, 4, 0, true],
      [1, 4, 1, false],
    ]);
  });
});

describe('ties', () => {
  /** Pairs of note numbers that are tied, counted in the order of the score. */
  const tiesOf = (text: string): string => {
    const { notes } = read(text).score;
    return notes
      .flatMap(({ id, tiedTo, tiedFrom }) => [
        ...(tiedTo === undefined ? [] : [`${String(id)}>${String(tiedTo)}`]),
        ...(tiedFrom === undefined ? [] : [`${String(tiedFrom)}<${String(id)}`]),
      ])
      .join(' ');
  };
  const tune = (music: string): string => `X:1\nM:4/4\nL:1/4\nK:C\n${music}\n`;

  const rows: readonly (readonly [string, string])[] = [
    ['C-C D2|', '0>1 0<1'],
    ['C4-|C4|', '0>1 0<1'],
    ['C2- C2-|C4|', '0>1 1>2 0<1 1<2'],
    ['[CE]2-[CE]2|', '0>2 1>3 0<2 1<3'],
    ['[CE-]2[CE]2|', '1>3 1<3'],
    ['C2.-C2|', '0>1 0<1'],
    ['^f4-|f4|', '0>1 0<1'],
    ['C2-D2|', ''],
    ['C2-^C2|', ''],
    ['C2-z2|C4|', ''],
    ['C4-&E4|C4|', '0>2 0<2'],
    ['C4-&C4|C4|', '0>2 0<2'],
  ];
  it.each(rows)(`%s (${standard('4.11')})`, (music, ties) => {
    expect(tiesOf(tune(music))).toBe(ties);
  });

  it('runs into both endings', () => {
    expect(tiesOf(tune('|:C4-|1C4:|2C4|]'))).toBe('0>1 0<1 0<2');
    expect(pitchesOf(readMusic('|:^F4-|1F4:|2F4|]'))).toBe('F#4 F#4 F#4');
  });
});
