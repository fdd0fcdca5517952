import type { NoteId } from '../score/index.js';

/** What sounds or shows when. All times are seconds from the start of the lesson; every output reads this and nothing else. */
export interface Timeline {
  readonly seconds: number;
  readonly steps: readonly TimelineStep[];
  /** Sorted by start, then by kind. */
  readonly events: readonly TimelineEvent[];
}

export interface TimelineStep {
  readonly index: number;
  readonly title: string;
  readonly start: number;
  readonly end: number;
}

interface Timed {
  readonly start: number;
  readonly end: number;
  /** Index of the step and of the action in its script. */
  readonly step: number;
  readonly action: number;
}

/** A note to be struck. */
export interface NoteEvent extends Timed {
  readonly kind: 'note';
  readonly midi: number;
  /** 1 to 127. */
  readonly velocity: number;
  readonly voice: string;
  /** Written notes that sound as this one (a tie chain); empty for a demonstration that is not in the score. */
  readonly notes: readonly NoteId[];
  /** True for sounds that are not in the score: stacked, block and arpeggiated chords. */
  readonly demonstration: boolean;
}

/** A bar that is being played. */
export interface BarEvent extends Timed {
  readonly kind: 'bar';
  readonly bar: number;
  /** How often the bar has been played before within this action. */
  readonly pass: number;
}

export interface SpokenWord {
  readonly text: string;
  /** Offsets in the shown text of the `say`. */
  readonly from: number;
  readonly to: number;
  readonly start: number;
  readonly end: number;
}

export interface SpeechEvent extends Timed {
  readonly kind: 'speech';
  /** Id of the `say`. */
  readonly say: string;
  readonly text: string;
  readonly words: readonly SpokenWord[];
}

export interface PauseEvent extends Timed {
  readonly kind: 'pause';
}

/** A question: the page waits for the student; fixed media pause from `start` to `end`. */
export interface QuestionEvent extends Timed {
  readonly kind: 'question';
  /** Id of the `ask`. */
  readonly ask: string;
}

export type TimelineEvent = NoteEvent | BarEvent | SpeechEvent | PauseEvent | QuestionEvent;

/** Measured speech of one `say`: its length and the times of its words, in seconds from its own start. */
export interface Speech {
  readonly seconds: number;
  readonly words: readonly { readonly from: number; readonly to: number; readonly start: number; readonly end: number }[];
}
