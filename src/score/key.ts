import type { KeySignature, Mode } from './model.js';
import {
  letters,
  pitchClass,
  printPitchClass,
  readPitchClass,
  spell,
  transposed,
  type Letter,
} from './pitch.js';

/** A key signature together with what it does to each letter. */
export interface KeyInForce {
  readonly signature: KeySignature;
  readonly alters: Readonly<Record<Letter, number>>;
}

/** More sharps or flats than this have no signature. */
export const mostAccidentals = 7;

/** Fifths between the signature of a mode and that of the major key on the same tonic (ABC 2.1, section 3.1.14). */
const modeOffsets: Readonly<Record<Mode, number>> = {
  lydian: 1,
  major: 0,
  ionian: 0,
  mixolydian: -1,
  dorian: -2,
  minor: -3,
  aeolian: -3,
  phrygian: -4,
  locrian: -5,
};
/** Only the first three letters of a mode count, in either case; `m` alone is minor. */
const modeNames: Readonly<Record<string, Mode>> = {
  maj: 'major',
  ion: 'ionian',
  mix: 'mixolydian',
  dor: 'dorian',
  m: 'minor',
  min: 'minor',
  aeo: 'aeolian',
  phr: 'phrygian',
  loc: 'locrian',
  lyd: 'lydian',
};

/** What each letter becomes in a signature of so many fifths: seven neighbours on the line of fifths, from the fourth degree on. */
function altersOf(fifths: number): Record<Letter, number> {
  const alters: Record<Letter, number> = { C: 0, D: 0, E: 0, F: 0, G: 0, A: 0, B: 0 };
  for (let place = fifths - 1; place <= fifths + 5; place++) {
    const { letter, alter } = spell(pitchClass(place));
    alters[letter] = alter;
  }
  return alters;
}

export const noKey: KeyInForce = { signature: { fifths: 0 }, alters: altersOf(0) };

const accidental = /(\^\^|\^|__|_|=)([A-Ga-g])/g;
/** `clef=bass` and the like, whose `=b` is no natural. */
const staffProperty = /[A-Za-z-]+=(?:"[^"]*"|\S+)/g;
const signs: Readonly<Record<string, number>> = { '^^': 2, '^': 1, '=': 0, _: -1, __: -2 };

/** Reads the key of a `K:` field (ABC 2.1, section 3.1.14), not its clef; `undefined` where the text names no key. */
export function readKey(value: string): KeyInForce | undefined {
  const text = value.trim();
  if (/^none\b/i.test(text) || text === '') return noKey;
  // Highland pipes: HP writes no signature, Hp marks F sharp, C sharp and G natural.
  if (/^HP\b/.test(text)) return noKey;
  if (/^Hp\b/.test(text)) return { signature: { fifths: 2 }, alters: altersOf(2) };
  const match = /^([A-G])([#b♯♭]?)\s*([A-Za-z]*)(?![A-Za-z=])/u.exec(text);
  const sign = (match?.[2] ?? '').replace('♯', '#').replace('♭', 'b');
  const tonicName = `${match?.[1] ?? ''}${sign}`;
  const tonic = readPitchClass(tonicName);
  if (match === null || tonic === undefined) return undefined;
  const word = (match[3] ?? '').toLowerCase();
  const explicit = word.startsWith('exp');
  const named = modeNames[word.slice(0, 3)];
  // A word that is no mode belongs to the clef that may follow; `K:C bass`.
  const mode = explicit ? undefined : (named ?? 'major');
  const fifths = mode === undefined ? 0 : tonic + modeOffsets[mode];
  const alters = altersOf(fifths);
  const accidentals = text.slice(tonicName.length).replace(staffProperty, ' ');
  for (const [, accidentalSign = '', name = ''] of accidentals.matchAll(accidental)) {
    const letter = letters.find(candidate => candidate === name.toUpperCase());
    if (letter !== undefined) alters[letter] = signs[accidentalSign] ?? 0;
  }
  return { signature: { fifths, tonic: tonicName, ...(mode === undefined ? {} : { mode }) }, alters };
}

/** The signature that sounds where a part is transposed by so many places on the line of fifths. */
export function transposeSignature(signature: KeySignature, fifths: number): KeySignature {
  const tonic = readPitchClass(signature.tonic ?? '');
  if (fifths === 0) return signature;
  return {
    ...signature,
    fifths: signature.fifths + fifths,
    ...(tonic === undefined ? {} : { tonic: printPitchClass(transposed(tonic, fifths)) }),
  };
}
