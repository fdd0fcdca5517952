import type { PlayStyle } from '../lesson/index.js';
import type { NoteId } from '../score/index.js';

/** What sounds or shows when. All times are seconds from the start of the lesson; every output reads this and nothing else. */
export interface Timeline {
  readonly seconds: number;
  /** Steps follow one another without a gap: a step ends where the next one starts. */
  readonly steps: readonly TimelineStep[];
  /** Sorted by start, then by kind in the order of `TimelineEvent`. */
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

/** One playing of a range of bars: what `play` asks for, once for each of its `times`. */
export interface PassageEvent extends Timed {
  readonly kind: 'passage';
  /** Labels of the first and the last bar that sound. */
  readonly bars: { readonly first: string; readonly last: string };
  readonly as: PlayStyle;
  /** Percentage of the lesson's tempo. */
  readonly tempo: number;
  /** Id of the one voice that is heard, and how it is called in words. */
  readonly voice?: string;
  readonly voiceName?: string;
  /** How many chords a demonstration shows; absent for music as written. */
  readonly chords?: number;
  /** Path of the other version of the piece that sounds. */
  readonly score?: string;
  /** How often the bars go round without a break; once where absent. */
  readonly rounds?: number;
  /** True where the narration speaks over it. */
  readonly under: boolean;
}

/** A bar that is being played. */
export interface BarEvent extends Timed {
  readonly kind: 'bar';
  /** Index into `Score.bars` (of the other version where `score` is given). */
  readonly bar: number;
  /** How often the bar has been played before within this action. */
  readonly pass: number;
  readonly score?: string;
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
  /** Path of the other version of the piece that `notes` belong to. */
  readonly score?: string;
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
  /** Id of the `say`; the id of the `ask` for a question read aloud, and that id with `.answer` for its answer. */
  readonly say: string;
  readonly text: string;
  readonly words: readonly SpokenWord[];
  /** True where it is spoken over music. */
  readonly over: boolean;
  /** False where the length is estimated from the number of words. */
  readonly measured: boolean;
}

export type PauseReason =
  | 'lead-in'
  | 'before an example'
  | 'after an example'
  | 'between words'
  | 'between examples'
  | 'wait'
  | 'ring-out';

export interface PauseEvent extends Timed {
  readonly kind: 'pause';
  readonly reason: PauseReason;
}

/** A question: the page waits for the student; fixed media pause from `start` to `end`. */
export interface QuestionEvent extends Timed {
  readonly kind: 'question';
  /** Id of the `ask`. */
  readonly ask: string;
}

export type TimelineEvent = PassageEvent | BarEvent | NoteEvent | SpeechEvent | PauseEvent | QuestionEvent;

/** Measured speech of one `say`: its length and the times of its words, in seconds from its own start. */
export interface Speech {
  readonly seconds: number;
  readonly words: readonly {
    readonly from: number;
    readonly to: number;
    readonly start: number;
    readonly end: number;
  }[];
}
