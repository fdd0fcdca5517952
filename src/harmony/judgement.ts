import type { Fraction, NoteId, PitchClass } from '../score/index.js';
import type { CadenceKind, Key } from './model.js';

/**
 * How the notes answer a question about them: `supported`, `rivalled` (defensible, another reading fits as well),
 * `open` (the notes do not settle it) or `contradicted`.
 */
export type Outcome = 'supported' | 'rivalled' | 'open' | 'contradicted';

/** A note (or a missing tone) that decided a judgement. */
export interface Witness {
  readonly role: 'supports' | 'contradicts' | 'set aside' | 'missing';
  readonly note?: NoteId;
  /** For a missing tone. */
  readonly tone?: PitchClass;
  /** A few words: `third of the chord`, `passing tone`, `never sounds`. */
  readonly why: string;
}

/** Is the harmony of this span this chord? A moment (`start = end`) asks for the harmony that sounds there. */
export interface ChordQuestion {
  readonly start: Fraction;
  readonly end: Fraction;
  /** Spelled tones, root first. */
  readonly tones: readonly PitchClass[];
  /** The tone that the claim puts in the bass; absent where the claim leaves it open. */
  readonly bass?: PitchClass;
  /** Key in which the numeral is read; absent for a plain chord name. */
  readonly key?: Key;
  /** The numeral as claimed, for wording and for readings that the notes alone cannot tell apart (`cad64` and `I64`). */
  readonly roman?: string;
}

export interface Judgement {
  readonly outcome: Outcome;
  /** Lower case start, no final stop, in a teacher's words. */
  readonly reason: string;
  readonly witnesses: readonly Witness[];
  /** The reading that fits best, where it is not the one asked about. */
  readonly better?: { readonly roman: string; readonly chord: string; readonly key: Key };
}

export interface KeyQuestion {
  readonly start: Fraction;
  readonly end: Fraction;
  readonly key: Key;
}

export interface CadenceQuestion {
  /** The span in which the chord of arrival is looked for; a moment asks for an arrival there. */
  readonly start: Fraction;
  readonly end: Fraction;
  readonly kind: CadenceKind | 'authentic';
  readonly key?: Key;
  readonly phrygian?: boolean;
}
