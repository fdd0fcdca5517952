import type { Span, SourceText } from '../diagnostics/index.js';
import type { Fraction } from './fraction.js';
import type { Pitch } from './pitch.js';

/** Index of a note in `Score.notes`. */
export type NoteId = number & { readonly __noteId: true };
/** Id of a voice as the score names it (`1`, `RH`); an overlay of voice 1 is `1&1`. */
export type VoiceId = string & { readonly __voiceId: true };

/** A written note head with its sounding pitch. All times are whole notes from the start of the written score. */
export interface Note {
  readonly id: NoteId;
  readonly pitch: Pitch;
  readonly onset: Fraction;
  /** Written length of this note head, tuplet factor applied. A grace note has length 0 and the onset of its main note. */
  readonly duration: Fraction;
  readonly voice: VoiceId;
  /** Index into `Score.bars`. */
  readonly bar: number;
  readonly grace: boolean;
  /** The note whose tie runs into this one: then this note sounds on without being struck again. */
  readonly tiedFrom?: NoteId;
  /** The note that this note is tied into. */
  readonly tiedTo?: NoteId;
  /** Where the note stands in the ABC source. */
  readonly span: Span;
}

export interface Rest {
  readonly onset: Fraction;
  readonly duration: Fraction;
  readonly voice: VoiceId;
  /** Index into `Score.bars`. */
  readonly bar: number;
  readonly span: Span;
}

/** A part as the source names it. Voices stand in the order of the score, top staff first. */
export interface Voice {
  readonly id: VoiceId;
  readonly name: string;
  /** 0-based staff from the top. */
  readonly staff: number;
  readonly clef: string;
  /** The voice that this one is an overlay of. */
  readonly overlayOf?: VoiceId;
}

export interface Meter {
  /** `3/4`; `free` where the score says so. */
  readonly text: string;
  readonly beats: number;
  readonly unit: number;
  /** Nominal length of a bar in whole notes. */
  readonly length: Fraction;
}

export type Mode =
  'major' | 'minor' | 'dorian' | 'phrygian' | 'lydian' | 'mixolydian' | 'aeolian' | 'locrian' | 'ionian';

/** A key signature: fifths as in MusicXML 4.0 (flats negative). `tonic` and `mode` only say what the source wrote. */
export interface KeySignature {
  readonly fifths: number;
  readonly tonic?: string;
  readonly mode?: Mode;
}

/** One written bar. */
export interface Bar {
  /** Position in the written order, 0-based. */
  readonly index: number;
  /** Printed number: the first full bar is 1, a pickup is 0; alternative endings share numbers. */
  readonly number: number;
  /** The number with the letter that tells endings apart: `8`, `8a`, `8b`. */
  readonly label: string;
  readonly start: Fraction;
  /** Actual length of what is written. */
  readonly length: Fraction;
  readonly meter: Meter;
  readonly key: KeySignature;
  /** Metrical position of the bar's first note: 0 in a full bar, what is missing in front in a pickup. */
  readonly startsAt: Fraction;
  /** Numbers of the ending that the bar stands in. */
  readonly ending?: readonly number[];
  readonly span: Span;
}

/** One bar as it is played; repeats and endings are unfolded here and nowhere else. */
export interface PlayedBar {
  /** Index into `Score.bars`. */
  readonly bar: number;
  /** How often this bar has been played before, 0 the first time. */
  readonly pass: number;
}

export interface TempoMark {
  readonly onset: Fraction;
  /** Note value of the beat. */
  readonly beat: Fraction;
  readonly beatsPerMinute: number;
  readonly text?: string;
}

export type MarkKind =
  | 'dynamic'
  | 'fermata'
  | 'chord symbol'
  | 'annotation'
  | 'lyric'
  | 'staccato'
  | 'accent'
  | 'breath'
  /** `trill`, `mordent`, `upper mordent`, `turn`, `inverted turn`, `roll`. Grace notes are notes of their own. */
  | 'ornament'
  | 'slur start'
  | 'slur end'
  /** `segno`, `coda`, `fine`, `D.C.`, `D.S.`, alone or as `D.C. al fine` and the like. */
  | 'direction';

/** Things written at a moment that are not notes. */
export interface Mark {
  readonly kind: MarkKind;
  readonly text: string;
  readonly onset: Fraction;
  readonly voice: VoiceId;
}

/** A score as written. Notes are sorted by onset, then by pitch from low to high. */
export interface Score {
  readonly source: SourceText;
  readonly title: string;
  readonly composer: string;
  readonly voices: readonly Voice[];
  readonly notes: readonly Note[];
  readonly rests: readonly Rest[];
  readonly bars: readonly Bar[];
  readonly playingOrder: readonly PlayedBar[];
  readonly tempos: readonly TempoMark[];
  readonly marks: readonly Mark[];
  /** Length of the written score in whole notes. */
  readonly length: Fraction;
}
