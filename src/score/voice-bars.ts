import type { BarLine } from './bar-line.js';
import { greatest, zero, type Fraction } from './fraction.js';
import type { KeySignature, Mark, Meter } from './model.js';
import type { Pitch } from './pitch.js';
import type { Tempo } from './tempo.js';

/** Something at a moment of a bar, in the voice (layer 0) or one of its overlays. */
interface InBar {
  /** Whole notes from the start of the bar. */
  readonly offset: Fraction;
  readonly layer: number;
}

/** A note before its bar has its place in time. Ties are links between drafts. */
export interface NoteDraft extends InBar {
  readonly pitch: Pitch;
  readonly duration: Fraction;
  readonly grace: boolean;
  readonly start: number;
  readonly end: number;
  tiedFrom?: NoteDraft;
  tiedTo?: NoteDraft;
}

export interface RestDraft extends InBar {
  readonly duration: Fraction;
  readonly start: number;
  readonly end: number;
}

export interface MarkDraft extends InBar {
  readonly kind: Mark['kind'];
  readonly text: string;
}

export interface TempoDraft {
  readonly offset: Fraction;
  readonly tempo: Tempo;
}

/** One bar as one voice writes it. */
export interface VoiceBar {
  readonly notes: NoteDraft[];
  readonly rests: RestDraft[];
  readonly marks: MarkDraft[];
  readonly tempos: TempoDraft[];
  /** What each layer has written so far, in whole notes. */
  readonly layers: Fraction[];
  /** Lines in front of the bar and behind it; several where an empty bar stands between them. */
  readonly opening: readonly BarLine[];
  readonly closing: BarLine[];
  meter: Meter;
  /** Sounding key. */
  key: KeySignature;
  /** Range in the source. */
  readonly start: number;
  end: number;
}

/** Length of what the voice and its overlays write into the bar. */
export const lengthOfBar = (bar: VoiceBar): Fraction => bar.layers.reduce(greatest, zero);
