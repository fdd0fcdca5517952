import { pitchClass, printPitchClass, readPitchClass, transposed } from '../score/index.js';
import type { PitchClass } from '../score/index.js';
import type { Key } from './model.js';

/** Fifths from the tonic to degrees 1 to 7: the major scale and the natural minor scale. */
const scaleSteps = {
  major: [0, 2, 4, -1, 1, 3, 5],
  minor: [0, 2, -3, -1, 1, -4, -2],
} as const;

export const key = (tonic: PitchClass, mode: Key['mode']): Key => ({ tonic, mode });

/** `G major`, `F# minor`. */
export const printKey = (of: Key): string => `${printPitchClass(of.tonic)} ${of.mode}`;

/**
 * Reads `G major`, `F# minor`, `B flat major`, `Bb`, and a small letter for minor (`f#`), as analyses are often labelled.
 * Returns `undefined` for anything else.
 */
export function readKey(text: string): Key | undefined {
  const match =
    /^\s*([A-Ga-g])\s*(?:-?\s*(sharp|flat)|([#♯b♭]{1,2}))?\s*(?:-?\s*(major|minor|maj|min|m))?\s*$/u.exec(
      text,
    );
  if (match === null) return undefined;
  const [, letter = '', word, sign = '', modeWord] = match;
  const accidental = word === 'sharp' ? '#' : word === 'flat' ? 'b' : sign;
  const tonic = readPitchClass(letter.toUpperCase() + accidental);
  if (tonic === undefined) return undefined;
  const small = letter !== letter.toUpperCase();
  const mode =
    modeWord === undefined ? (small ? 'minor' : 'major') : /^maj/.test(modeWord) ? 'major' : 'minor';
  return { tonic, mode };
}

/** The tone on a degree (1 to 7) of the major or natural minor scale, `alter` semitones higher. */
export function degreeTone(of: Key, degree: number, alter = 0): PitchClass {
  const step = scaleSteps[of.mode][degree - 1];
  if (step === undefined) throw new RangeError(`no scale degree ${degree}`);
  return transposed(of.tonic, step + 7 * alter);
}

/** Degree (1 to 7) by letter and its alteration against the major or natural minor scale. */
export function degreeOf(of: Key, tone: PitchClass): { readonly degree: number; readonly alter: number } {
  const distance = tone - of.tonic;
  const index = scaleSteps[of.mode].findIndex(step => (((distance - step) % 7) + 7) % 7 === 0);
  return { degree: index + 1, alter: (distance - (scaleSteps[of.mode][index] ?? 0)) / 7 };
}

/** The tones native to a key: the scale, and in minor also the raised sixth and seventh (OMT and Hutchinson count them as native). */
export function nativeTones(of: Key): readonly PitchClass[] {
  const natural = scaleSteps[of.mode].map(step => transposed(of.tonic, step));
  return of.mode === 'major' ? natural : [...natural, degreeTone(of, 6, 1), degreeTone(of, 7, 1)];
}

export const leadingTone = (of: Key): PitchClass => transposed(of.tonic, 5);

/** Fifths of the key signature, flats negative (MusicXML 4.0, type fifths). */
export const signatureOf = (of: Key): number => (of.mode === 'major' ? of.tonic : of.tonic - 3);

export const relativeOf = (of: Key): Key =>
  of.mode === 'major' ? key(transposed(of.tonic, 3), 'minor') : key(transposed(of.tonic, -3), 'major');

export const parallelOf = (of: Key): Key => key(of.tonic, of.mode === 'major' ? 'minor' : 'major');

export const dominantKeyOf = (of: Key): Key => key(transposed(of.tonic, 1), of.mode);

export const sameKey = (a: Key, b: Key): boolean => a.tonic === b.tonic && a.mode === b.mode;

/** Closely related keys: signatures that differ by at most one accidental, the key itself left out (Hutchinson, Modulation). */
export function closelyRelatedKeys(of: Key): readonly Key[] {
  const signature = signatureOf(of);
  return [signature, signature + 1, signature - 1]
    .flatMap(fifths => [key(pitchClass(fifths), 'major'), key(pitchClass(fifths + 3), 'minor')])
    .filter(other => !sameKey(other, of));
}
