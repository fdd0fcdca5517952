import type { Conventions, Evidence, VerdictWord } from '../claims/index.js';
import type { Analysis, HarmonicFunction, NonChordToneKind } from '../harmony/index.js';
import type { Layer, PlayStyle } from '../lesson/index.js';
import type { Fraction, NoteId } from '../score/index.js';
import type { Timeline } from './model.js';

/**
 * Everything that the walkthrough page shows and plays, as plain JSON: the contract between what writes the page and what
 * runs in it. Times in the score are whole notes, times of the lesson seconds; texts are plain text unless a field says otherwise.
 */
export interface PageData {
  readonly page: 1;
  /** The kind of learning platform that it was packed for; absent in a page that stands by itself. */
  readonly reportsTo?: 'SCORM 1.2' | 'cmi5';
  /** Tells lessons apart in the browser's storage; changes when the lesson changes. */
  readonly id: string;
  readonly title: string;
  readonly author?: string;
  readonly description?: string;
  /** `D minor`: the key that the lesson calls home. */
  readonly home: string;
  /** Where textbooks disagree, as the lesson has it; for judging what a student writes. */
  readonly conventions: Conventions;
  /** Tempo in beats a minute and note value of a beat, where the lesson sets its own. */
  readonly tempo?: number;
  readonly beat?: Fraction;
  /** Whether written music is played with the pedal. */
  readonly pedal: boolean;
  /** The lesson's own score first, then its other versions. */
  readonly scores: readonly PageScore[];
  readonly steps: readonly PageStep[];
  readonly claims: readonly PageClaim[];
  readonly timeline: Timeline;
  /** Recorded speech in the order of the page's audio blocks. */
  readonly clips: readonly PageClip[];
}

export interface PageScore {
  /** As the lesson names it; `PassageEvent.score` refers to it. */
  readonly path: string;
  readonly title: string;
  readonly composer: string;
  /** Source text that the note offsets refer to. */
  readonly abc: string;
  readonly voices: readonly PageVoice[];
  /** In the order of `Score.notes`: the position is the `NoteId`. */
  readonly notes: readonly PageNote[];
  /** In the order of `Score.bars`. */
  readonly bars: readonly PageBar[];
  readonly segments: readonly PageSegment[];
  /** What the engine found, for what is played and judged in the page; its score is read from `abc` again. */
  readonly reading: Omit<Analysis, 'score'>;
}

export interface PageVoice {
  readonly id: string;
  readonly name: string;
  /** 0-based staff from the top. */
  readonly staff: number;
  /** The instrument that plays it: General MIDI level 1 program number, 0-based. */
  readonly program: number;
}

export interface PageNote {
  /** `F#5`. */
  readonly pitch: string;
  readonly onset: number;
  /** Written length; 0 for a grace note. */
  readonly duration: number;
  /** Index into `PageScore.voices`. */
  readonly voice: number;
  /** Index into `PageScore.bars`. */
  readonly bar: number;
  /** Offset of the note head in `PageScore.abc`. */
  readonly at: number;
}

export interface PageBar {
  /** `0` for a pickup, `8a` in a first ending. */
  readonly label: string;
  readonly start: number;
  readonly length: number;
  /** Note value of one beat, and how far into the metre the bar starts (a pickup starts late). */
  readonly beat: number;
  readonly startsAt: number;
  /** Range of the bar in `PageScore.abc`, in the voice that counts the bars. */
  readonly from: number;
  readonly to: number;
}

/** A span with one harmony and what is written under it. */
export interface PageSegment {
  readonly start: number;
  readonly end: number;
  /** `G7/B`. */
  readonly chord: string;
  /** `V65/V`. */
  readonly roman: string;
  /** `F major`. */
  readonly key: string;
  readonly function: HarmonicFunction;
  readonly nonChordTones: readonly {
    readonly note: NoteId;
    readonly kind: NonChordToneKind;
    readonly figure?: string;
  }[];
}

export interface PageStep {
  readonly title: string;
  /** Indexes into the bars of the lesson's own score, both inclusive. */
  readonly firstBar: number;
  readonly lastBar: number;
  /** Key in which the step's numerals are read, where it is not the lesson's. */
  readonly home?: string;
  readonly show: readonly Layer[];
  /** Harmonies (positions in `PageScore.segments` of the lesson's own score) that the step's words call otherwise than the analysis does. */
  readonly readings: readonly { readonly segment: number; readonly roman: string; readonly key: string }[];
  /** In the order of the script; `TimelineEvent.action` is the position here. */
  readonly script: readonly PageAction[];
  /** Positions in `PageData.claims` of claims that belong to the step but to no words of it. */
  readonly claims: readonly number[];
}

export type PageAction =
  | {
      readonly kind: 'play';
      readonly bars: string;
      readonly as: PlayStyle;
      readonly tempo: number;
      readonly score: number;
    }
  | {
      readonly kind: 'say';
      readonly id: string;
      /** Plain text that the offsets of spoken words refer to. */
      readonly text: string;
      /** The same as HTML; words with a claim are `<span class="claim" data-claim="PATH">`. The page keeps known elements only. */
      readonly html: string;
    }
  | { readonly kind: 'wait'; readonly seconds: number }
  | {
      readonly kind: 'ask';
      readonly id: string;
      readonly question: string;
      readonly choices: readonly string[];
      readonly answer: string;
      /** Position in `PageData.claims` of the statement that proves the answer. */
      readonly because?: number;
    };

export interface PageClaim {
  /** Place in the lesson, as `data-claim` names it. */
  readonly path: string;
  readonly text: string;
  readonly verdict: VerdictWord;
  readonly reason: string;
  readonly evidence: readonly PageEvidence[];
  readonly nearest?: string;
  /** The author's reason for setting the verdict aside. */
  readonly accepted?: string;
}

/** The notes are known by their number; their places in the source stay behind. */
export type PageEvidence = Omit<Evidence, 'span'>;

/** One recorded utterance. */
export interface PageClip {
  /** Id of the say, the ask or its answer, as in `SpeechEvent.say`. */
  readonly say: string;
  /** Silence that the audio format puts in front. */
  readonly skipSeconds: number;
}
