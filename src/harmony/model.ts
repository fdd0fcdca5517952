import type { Fraction, NoteId, PitchClass, Score, VoiceId } from '../score/index.js';

export interface Key {
  readonly tonic: PitchClass;
  readonly mode: 'major' | 'minor';
}

export type TriadQuality = 'major' | 'minor' | 'diminished' | 'augmented';
export type ChordQuality =
  | TriadQuality
  | 'dominant seventh'
  | 'major seventh'
  | 'minor seventh'
  | 'half-diminished seventh'
  | 'diminished seventh'
  | 'minor-major seventh'
  | 'augmented major seventh'
  | 'augmented seventh'
  | 'dominant ninth'
  | 'dominant minor ninth'
  | 'Italian augmented sixth'
  | 'French augmented sixth'
  | 'German augmented sixth'
  | 'Swiss augmented sixth';

/** A chord as spelled tones stacked in thirds from its root. */
export interface Chord {
  readonly root: PitchClass;
  readonly quality: ChordQuality;
  /** Root first, then third, fifth, seventh, ninth. */
  readonly tones: readonly PitchClass[];
  /** Index into `tones` of the lowest tone: 0 root position, 1 first inversion ... */
  readonly inversion: number;
}

export type NonChordToneKind =
  | 'passing tone'
  | 'neighbour tone'
  | 'suspension'
  | 'retardation'
  | 'appoggiatura'
  | 'escape tone'
  | 'anticipation'
  | 'pedal'
  | 'cambiata'
  | 'double neighbour'
  | 'ornament';

export interface NonChordTone {
  readonly note: NoteId;
  readonly kind: NonChordToneKind;
  /** On a beat, and in a stronger place than what its voice goes on to. */
  readonly accented: boolean;
  readonly chromatic: boolean;
  readonly preparation?: NoteId;
  readonly resolution?: NoteId;
  /** Intervals above the bass, for a suspension or retardation: `4-3`, `9-8`, in the bass `2-3`. */
  readonly figure?: string;
}

export type HarmonicFunction = 'tonic' | 'predominant' | 'dominant';

/** Another reading that came close, and why it lost, in a teacher's words. */
export interface Rival {
  readonly chord: Chord;
  readonly key: Key;
  readonly roman: string;
  /** How much worse it is than the chosen reading, 0 equal; about 1 is one unexplained note of a beat. */
  readonly behind: number;
  readonly reason: string;
}

/** A span with one harmony. */
export interface Segment {
  readonly start: Fraction;
  readonly end: Fraction;
  readonly chord: Chord;
  readonly key: Key;
  /** Roman numeral with figures in `key`: `V65/V`, `cad64`, `N6`. */
  readonly roman: string;
  readonly function: HarmonicFunction;
  /** Bass tone of the harmony; under a pedal the lowest tone above the pedal. */
  readonly bass: PitchClass;
  readonly chordTones: readonly NoteId[];
  readonly nonChordTones: readonly NonChordTone[];
  /** Notes that no rule explains. */
  readonly unexplained: readonly NoteId[];
  /** 0 to 1: how far the reading is ahead of its rivals and how much of the sound it explains. */
  readonly confidence: number;
  readonly rivals: readonly Rival[];
}

/** A passage in one key; `kind` says whether a cadence confirms it. */
export interface KeyArea {
  readonly start: Fraction;
  readonly end: Fraction;
  readonly key: Key;
}

export type CadenceKind =
  'perfect authentic' | 'imperfect authentic' | 'half' | 'deceptive' | 'plagal' | 'evaded';

export interface Cadence {
  readonly kind: CadenceKind;
  /** Onset of the chord of arrival. */
  readonly onset: Fraction;
  readonly key: Key;
  readonly phrygian: boolean;
  /** Segments that make it, in order; the last is the arrival. */
  readonly segments: readonly number[];
  /** 0 to 1: how strongly metre, length, rests and melody mark a phrase end here. */
  readonly strength: number;
}

export interface PedalPoint {
  readonly start: Fraction;
  readonly end: Fraction;
  readonly tone: PitchClass;
  readonly voice: VoiceId;
  readonly position: 'bass' | 'inner' | 'upper';
  readonly notes: readonly NoteId[];
}

export interface Sequence {
  readonly start: Fraction;
  /** Length of the model. */
  readonly unit: Fraction;
  readonly statements: number;
  /** Generic steps from one statement to the next: -1 is a second down. */
  readonly step: number;
  readonly real: boolean;
}

/** Everything that the engine says about a score; computed once per score. */
export interface Analysis {
  readonly score: Score;
  /** Index of the bar with which the piece proper opens: behind an introduction, in which the other voices sound before the upper one enters. */
  readonly opens: number;
  readonly segments: readonly Segment[];
  readonly keyAreas: readonly KeyArea[];
  readonly cadences: readonly Cadence[];
  readonly pedals: readonly PedalPoint[];
  readonly sequences: readonly Sequence[];
}
