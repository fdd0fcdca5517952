import { describe, expect, it } from 'vitest';
import { pitchesOf, read, readMusic } from './reading.js';

const standard = (section: string): string => `ABC standard 2.1, section ${section}`;

interface Row {
  readonly source: string;
  readonly music: string;
  readonly pitches: string;
}

const rows: readonly Row[] = [
  { source: standard('4.1'), music: "C,, C, C c c' c''", pitches: 'C2 C3 C4 C5 C6 C7' },
  { source: standard('4.1'), music: "B, b, C' c,", pitches: 'B3 B4 C5 C4' },
  { source: standard('4.2'), music: '^C _D =E ^^F __G', pitches: 'C#4 Db4 E4 F##4 Gbb4' },
  { source: standard('4.2, accidentals last to the bar line'), music: '^F F | F', pitches: 'F#4 F#4 F4' },
  { source: standard('11.3, default pitch: all octaves'), music: '^F f F, | f', pitches: 'F#4 F#5 F#3 F5' },
  { source: standard('4.2'), music: '^F =F F', pitches: 'F#4 F4 F4' },
  { source: standard('4.11, a tie joins notes of one pitch'), music: '^f4- | f2 f2', pitches: 'F#5 F#5 F5' },
  { source: standard('4.17'), music: '[C_EG] E', pitches: 'C4 Eb4 G4 Eb4' },
  { source: standard('4.12, grace notes'), music: '{^g}a g', pitches: 'A5 G#5' },
  { source: standard('7.4, overlay'), music: '^F4 & F4 | F4', pitches: 'F4 F#4 F4' },
];

describe('pitch of a note', () => {
  it.each(rows)('$music reads $pitches ($source)', ({ music, pitches }) => {
    expect(pitchesOf(readMusic(`${music}|\n`))).toBe(pitches);
  });

  const reach: readonly (readonly [string, string])[] = [
    ['not', 'F#4 F4 F5'],
    ['octave', 'F#4 F#4 F5'],
    ['pitch', 'F#4 F#4 F#5'],
  ];
  it.each(reach)(`propagate-accidentals %s gives %s (${standard('11.3')})`, (word, pitches) => {
    expect(pitchesOf(read(`X:1\nM:4/4\nL:1/4\n%%propagate-accidentals ${word}\nK:C\n^F F f z|`).score)).toBe(
      pitches,
    );
  });
});

/** Key signatures: ABC 2.1, section 3.1.14, table of modes; the signature of each row reads the scale from C up. */
const keys: readonly (readonly [string, string])[] = [
  ['C', 'C D E F G A B'],
  ['G', 'C D E F# G A B'],
  ['C#', 'C# D# E# F# G# A# B#'],
  ['Cb', 'Cb Db Eb Fb Gb Ab Bb'],
  ['Am', 'C D E F G A B'],
  ['A#m', 'C# D# E# F# G# A# B#'],
  ['Gmin', 'C D Eb F G A Bb'],
  ['AMix', 'C# D E F# G A B'],
  ['DDor', 'C D E F G A B'],
  ['EPhr', 'C D E F G A B'],
  ['FLyd', 'C D E F G A B'],
  ['BLoc', 'C D E F G A B'],
  ['C#Dor', 'C# D# E F# G# A# B'],
  ['Bb major', 'C D Eb F G A Bb'],
  ['F# minor', 'C# D E F# G# A B'],
  ['D Phr ^f', 'C D Eb F# G A Bb'],
  ['D exp _b _e ^f', 'C D Eb F# G A Bb'],
  ['D =c', 'C D E F# G A B'],
  ['none', 'C D E F G A B'],
  ['', 'C D E F G A B'],
  ['HP', 'C D E F G A B'],
  ['Hp', 'C# D E F# G A B'],
  ['Eb clef=bass', 'C D Eb F G Ab Bb'],
  ['Eb bass', 'C D Eb F G Ab Bb'],
];

describe('key signature', () => {
  it.each(keys)('K:%s makes the scale %s', (key, scale) => {
    const text = pitchesOf(read(`X:1\nM:none\nL:1/4\nK:${key}\nCDEFGAB|`).score);
    expect(text.replace(/\d/g, '')).toBe(scale);
  });

  it('changes inside the tune (ABC standard 2.1, section 3.2) and ends earlier accidentals (as abc2midi plays it)', () => {
    expect(pitchesOf(readMusic('^F F [K:Bb] B F | [K:D] F C z2 |'))).toBe('F#4 F#4 Bb4 F4 F#4 C#4');
  });
});

/** Clefs and transposition: ABC 2.1, section 4.6. */
const sounding: readonly (readonly [string, string])[] = [
  ['clef=treble', 'C4 F#4'],
  ['clef=treble-8', 'C3 F#3'],
  ['treble+8', 'C5 F#5'],
  ['clef=bass', 'C4 F#4'],
  ['octave=-1', 'C3 F#3'],
  ['clef=bass-8 octave=1', 'C4 F#4'],
  ['transpose=-2', 'Bb3 E4'],
  ['transpose=3', 'Eb4 A4'],
  ['transpose=12', 'C5 F#5'],
  ['transpose=-14 clef=treble', 'Bb2 E3'],
];

describe('sounding pitch', () => {
  it.each(sounding)('%s sounds %s', (properties, pitches) => {
    expect(pitchesOf(read(`X:1\nM:2/4\nL:1/4\nK:C\nV:1 ${properties}\nC ^F|`).score)).toBe(pitches);
  });

  it('transposes the key so that it keeps the fewest accidentals', () => {
    // A clarinet in B flat in D major sounds in C major; one in A, in F minor, sounds in D minor: common practice.
    const key = (written: string, semitones: number): number | undefined =>
      read(`X:1\nM:2/4\nL:1/4\nK:${written} transpose=${String(semitones)}\nC D|`).score.bars[0]?.key.fifths;
    expect([key('D', -2), key('Fm', -3), key('Bb', 2), key('Cb', 0)]).toEqual([0, -1, 0, -7]);
  });
});
