/** The seven letters in scale order. */
export type Letter = 'C' | 'D' | 'E' | 'F' | 'G' | 'A' | 'B';
export const letters: readonly Letter[] = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];

/** A spelled pitch: F sharp and G flat are different pitches. Octave 4 starts at middle C (MusicXML 4.0, type octave). */
export interface Pitch {
  readonly letter: Letter;
  /** Semitones added to the letter: -2 double flat to 2 double sharp. */
  readonly alter: number;
  readonly octave: number;
}

/**
 * A spelled pitch without its octave, as a position on the line of fifths: F -1, C 0, G 1, D 2 ... F sharp 6, B flat -2.
 * Intervals are differences: perfect fifth 1, major third 4, minor third -3, minor seventh -2, tritone 6 or -6.
 */
export type PitchClass = number & { readonly __pitchClass: true };

/** One of twelve keys of the keyboard (C = 0). Spelling is forgotten: never compare with a Pitch or a PitchClass. */
export type Chroma = number & { readonly __chroma: true };

const fifthsOfLetter: Readonly<Record<Letter, number>> = { F: -1, C: 0, G: 1, D: 2, A: 3, E: 4, B: 5 };
const lettersByFifths: readonly Letter[] = ['F', 'C', 'G', 'D', 'A', 'E', 'B'];
const semitonesOfLetter: Readonly<Record<Letter, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** A position on the line of fifths as a pitch class. */
export const pitchClass = (fifths: number): PitchClass => fifths as PitchClass;

export function pitchClassOf(pitch: Pick<Pitch, 'letter' | 'alter'>): PitchClass {
  return pitchClass(fifthsOfLetter[pitch.letter] + 7 * pitch.alter);
}

/** Letter and alteration of a pitch class. */
export function spell(of: PitchClass): { readonly letter: Letter; readonly alter: number } {
  const index = (((of + 1) % 7) + 7) % 7;
  return { letter: lettersByFifths[index] as Letter, alter: Math.floor((of + 1) / 7) };
}

/** The pitch class `interval` fifths above (below when negative). */
export const transposed = (from: PitchClass, interval: number): PitchClass => pitchClass(from + interval);

export const chromaOf = (of: PitchClass): Chroma => ((((of * 7) % 12) + 12) % 12) as Chroma;

/** MIDI note number; middle C is 60. */
export const midiOf = (pitch: Pitch): number =>
  12 * (pitch.octave + 1) + semitonesOfLetter[pitch.letter] + pitch.alter;

/** Steps on the staff from middle C, without accidentals: C4 is 0, B3 is -1. */
export const staffStepOf = (pitch: Pitch): number => 7 * (pitch.octave - 4) + letters.indexOf(pitch.letter);

const accidentals = (alter: number): string => (alter < 0 ? 'b'.repeat(-alter) : '#'.repeat(alter));

/** `F#`, `Bb`, `C`. */
export function printPitchClass(of: PitchClass): string {
  const { letter, alter } = spell(of);
  return letter + accidentals(alter);
}

/** `F#5`. */
export const printPitch = (pitch: Pitch): string =>
  `${pitch.letter}${accidentals(pitch.alter)}${pitch.octave}`;

/** Reads `F#`, `Bb`, `C♯`, `Fx`, `Ebb`; `undefined` for anything else. */
export function readPitchClass(text: string): PitchClass | undefined {
  const match = /^([A-G])(##?|bb?|x|♯♯?|♭♭?|𝄪|𝄫|♮)?$/u.exec(text);
  if (match === null) return undefined;
  const sign = match[2] ?? '';
  const alter =
    sign === 'x' || sign === '𝄪'
      ? 2
      : sign === '𝄫'
        ? -2
        : sign === '♮'
          ? 0
          : /[b♭]/u.test(sign)
            ? -sign.length
            : sign.length;
  return pitchClassOf({ letter: match[1] as Letter, alter });
}

/** Reads `F#5`; `undefined` for anything else. */
export function readPitch(text: string): Pitch | undefined {
  const match = /^(.+?)(-?\d)$/u.exec(text);
  const named = match === null ? undefined : readPitchClass(match[1] ?? '');
  return named === undefined ? undefined : { ...spell(named), octave: Number(match?.[2]) };
}
