import type { KeySignature, Mode } from './model.js';
import { letters, readPitchClass, spell, pitchClass, type Letter } from './pitch.js';

/** A key signature together with what it does to each letter. */
export interface KeyInForce {
  readonly signature: KeySignature;
  readonly alters: Readonly<Record<Letter, number>>;
}

/** Fifths between the tonic and the major key of the same signature (the church modes; ABC 2.1, section 3.1.14). */
const modeOffsets: Readonly<Record<Mode, number>> = {
  major: 0,
  ionian: 0,
  mixolydian: -1,
  dorian: -2,
  minor: -3,
  aeolian: -3,
  phrygian: -4,
  locrian: -5,
  lydian: 1,
};
const modes: readonly (readonly [RegExp, Mode])[] = [
  [/^maj/i, 'major'],
  [/^min/i, 'minor'],
  [/^m$/, 'minor'],
  [/^mix/i, 'mixolydian'],
  [/^dor/i, 'dorian'],
  [/^phr/i, 'phrygian'],
  [/^lyd/i, 'lydian'],
  [/^loc/i, 'locrian'],
  [/^ion/i, 'ionian'],
  [/^aeo/i, 'aeolian'],
];

/** What each letter becomes in a signature of so many fifths. */
export function altersOf(fifths: number): Readonly<Record<Letter, number>> {
  const alters: Record<Letter, number> = { C: 0, D: 0, E: 0, F: 0, G: 0, A: 0, B: 0 };
  // A signature of n fifths holds the seven pitch classes from n - 1 (its fourth degree) to n + 5.
  for (let place = fifths - 1; place <= fifths + 5; place++) {
    const { letter, alter } = spell(pitchClass(place));
    alters[letter] = alter;
  }
  return alters;
}

export const noKey: KeyInForce = { signature: { fifths: 0 }, alters: altersOf(0) };

const explicitAccidental = /(\^\^|\^|__|_|=)([A-Ga-g])/g;
const alterOf: Readonly<Record<string, number>> = { '^^': 2, '^': 1, '=': 0, _: -1, __: -2 };

/** Reads the key of a `K:` field without its clef; `undefined` where the text names no key. */
export function readKey(value: string): KeyInForce | undefined {
  const text = value.trim();
  if (/^none\b/i.test(text) || text === '') return noKey;
  if (/^HP\b/.test(text)) return noKey;
  if (/^Hp\b/.test(text)) return { signature: { fifths: 2 }, alters: altersOf(2) };
  const match = /^([A-G])([#b♯♭]?)\s*([A-Za-z]*)/u.exec(text);
  const tonicText =
    match === null ? '' : `${match[1] ?? ''}${(match[2] ?? '').replace('♯', '#').replace('♭', 'b')}`;
  const tonic = readPitchClass(tonicText);
  if (match === null || tonic === undefined) return undefined;
  const word = match[3] ?? '';
  const explicit = /^exp/i.test(word);
  const mode = modes.find(([name]) => name.test(word))?.[1] ?? 'major';
  const fifths = explicit ? 0 : tonic + modeOffsets[mode];
  const alters = { ...altersOf(fifths) };
  for (const [, sign = '', name = ''] of text.slice(match[0].length).matchAll(explicitAccidental)) {
    const letter = letters.find(candidate => candidate === name.toUpperCase());
    if (letter !== undefined) alters[letter] = alterOf[sign] ?? 0;
  }
  return { signature: explicit ? { fifths, tonic: tonicText } : { fifths, tonic: tonicText, mode }, alters };
}
