import type { CadenceKind } from './model.js';

/** What a kind of cadence asks of its place, besides its two chords. */
export interface CadenceTraits {
  /** A tonic closes where it comes; a dominant only where the music stops on it. */
  readonly goal: 'tonic' | 'dominant';
  /** The harmony that the analysis hears before the arrival: of the rarer closes the chords alone say little. */
  readonly from: 'anything' | 'dominant' | 'no dominant';
  /** Whether the analysis must hear the tonic at the arrival for the chords to be there at all. */
  readonly onHeardTonic: boolean;
  /** Whether a predominant or a six-four before the dominant prepares it (Open Music Theory, cadential progressions); IV before I prepares nothing. */
  readonly isPrepared: boolean;
  /** How much less it closes in the first three bars of a unit: a phrase has four bars or more (common practice), and it begins with I V I or I IV I. */
  readonly early: number;
  /**
   * From this much closure on a phrase ends: where a claim points at the beat, where it names the bar alone, and for the list of cadences. V and I
   * follow each other in the middle of phrases too. The plainest sign is the soprano on the tonic over V and I in root position; V may simply lead on
   * and must stop more clearly, and any other way to the tonic is common in the middle of phrases.
   */
  readonly borders: { readonly beat: number; readonly bar: number; readonly list: number };
}

/** The first kind that fits names a cadence. An evaded one closes nothing: it has no border and is not listed. */
export const cadenceTraits: Readonly<Record<CadenceKind, CadenceTraits>> = {
  'perfect authentic': {
    goal: 'tonic',
    from: 'anything',
    onHeardTonic: false,
    isPrepared: true,
    early: -0.1,
    borders: { beat: 0.35, bar: 0.6, list: 0.6 },
  },
  'imperfect authentic': {
    goal: 'tonic',
    from: 'anything',
    onHeardTonic: false,
    isPrepared: true,
    early: -0.2,
    borders: { beat: 0.35, bar: 0.7, list: 0.9 },
  },
  half: {
    goal: 'dominant',
    from: 'anything',
    onHeardTonic: false,
    isPrepared: true,
    early: -0.1,
    borders: { beat: 0.45, bar: 0.6, list: 0.6 },
  },
  deceptive: {
    goal: 'tonic',
    from: 'dominant',
    onHeardTonic: false,
    isPrepared: true,
    early: -0.1,
    borders: { beat: 0.35, bar: 0.6, list: 0.8 },
  },
  plagal: {
    goal: 'tonic',
    from: 'no dominant',
    onHeardTonic: true,
    isPrepared: false,
    early: -0.3,
    borders: { beat: 0.6, bar: 0.65, list: 0.9 },
  },
  evaded: {
    goal: 'tonic',
    from: 'dominant',
    onHeardTonic: false,
    isPrepared: true,
    early: -0.1,
    borders: { beat: 0, bar: 0, list: Infinity },
  },
};
