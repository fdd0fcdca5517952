import type { PitchClass } from '../score/index.js';
import type { Chord } from './model.js';
import { missingCosts, qualityCost, unlistedQuality } from './chord-cost.js';

/** Room for the tones of one chord in the flat tables. */
export const slots = 5;

/** The chords of a piece as flat tables, so that trying all of them against a stretch stays fast. */
export interface ChordTables {
  /** Position of each pitch class of the piece. */
  readonly index: ReadonlyMap<PitchClass, number>;
  readonly classes: readonly PitchClass[];
  /** Position of each tone among the piece's pitch classes; -1 where it never occurs, -2 where the chord has no such tone. */
  readonly tones: Int16Array;
  /** Letter of each tone, as a number from 0 to 6. */
  readonly letters: Uint8Array;
  /** What each tone costs where it is missing. */
  readonly missing: Float64Array;
  /** What each chord costs by itself. */
  readonly base: Float64Array;
}

/** The same for all tones on one letter, whatever their accidental. */
export const letterOf = (tone: PitchClass): number => ((tone % 7) + 7) % 7;

export function chordTablesOf(chords: readonly Chord[], classes: readonly PitchClass[]): ChordTables {
  const index = new Map(classes.map((value, at) => [value, at]));
  const tones = new Int16Array(chords.length * slots).fill(-2);
  const letters = new Uint8Array(chords.length * slots);
  const missing = new Float64Array(chords.length * slots);
  const base = new Float64Array(chords.length);
  chords.forEach((of, at) => {
    base[at] = qualityCost[of.quality] ?? unlistedQuality;
    const parts = missingCosts(of.quality);
    of.tones.forEach((tone, part) => {
      tones[at * slots + part] = index.get(tone) ?? -1;
      letters[at * slots + part] = letterOf(tone);
      missing[at * slots + part] = parts[part] ?? 0;
    });
  });
  return { index, classes, tones, letters, missing, base };
}
