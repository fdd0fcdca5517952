import type { Evidence, VerdictWord } from '../claims/index.js';
import type { Severity } from '../diagnostics/index.js';
import type { PageScore } from '../timeline/index.js';

/** What the window sends to be checked: the text as it stands and the scores that it is known to name. */
export interface ToCheck {
  /** File name of the lesson, for messages. */
  readonly name: string;
  readonly text: string;
  /** Texts of scores by their path in the lesson; `null` where the host cannot read it. */
  readonly scores: ReadonlyMap<string, string | null>;
  /** The score that the window shows, by the number that came with it. */
  readonly holds?: number;
}

/** A change that mends something: `insert` takes the place of what stands from `from` to `to`. */
export interface Fix {
  readonly from: number;
  readonly to: number;
  /** What will stand there, for people. */
  readonly words: string;
  /** The same as YAML has it there. */
  readonly insert: string;
}

/** A finding with its place in the lesson's text. */
export interface TextFinding {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  readonly help?: string;
  readonly from: number;
  readonly to: number;
  readonly fix?: Fix;
}

export interface TextClaim {
  /** Position of its step, 0-based. */
  readonly step: number;
  readonly text: string;
  readonly verdict: VerdictWord;
  readonly code: string;
  readonly reason: string;
  /** What to do, where it got no verdict. */
  readonly help?: string;
  readonly nearest?: string;
  /** Writes the nearest true sentence, or the one that was meant where it could not be read; none where the verdict is set aside. */
  readonly fix?: Fix;
  readonly accepted: boolean;
  /** Whether it got a verdict; where it could not, a finding says why. */
  readonly isJudged: boolean;
  readonly evidence: readonly Evidence[];
  readonly from: number;
  readonly to: number;
}

export interface TextStep {
  readonly title: string;
  readonly from: number;
  readonly to: number;
}

/** What was found in a text. Offsets are UTF-16 units of the text that was sent. */
export interface Checked {
  /** Milliseconds that the checking took. */
  readonly took: number;
  /** Scores that the lesson names and the window has not sent yet. */
  readonly wanted: readonly string[];
  /** Whether the text could be read as a lesson; where it could not, nothing is known of claims, steps and score. */
  readonly isRead: boolean;
  readonly findings: readonly TextFinding[];
  readonly claims: readonly TextClaim[];
  readonly steps: readonly TextStep[];
  /** The lesson's own score, with a number that changes with its text; its content only where the window does not hold it. */
  readonly score?: { readonly id: number; readonly content?: PageScore };
}

/** A question about bars of the lesson's own score. */
export interface ToAnalyse {
  readonly bars: readonly [number, number];
}

/** What stands in those bars, one line for each harmony. */
export interface Analysed {
  readonly bars: readonly [number, number];
  readonly harmonies: readonly {
    readonly place: string;
    readonly chord: string;
    readonly roman: string;
    readonly key: string;
    readonly rivals: readonly string[];
  }[];
  /** Sentences that hold and can stand in the lesson. */
  readonly claims: readonly string[];
}

export type ToWorker =
  { readonly kind: 'check'; readonly work: ToCheck } | { readonly kind: 'analyse'; readonly work: ToAnalyse };

export type FromWorker =
  | { readonly kind: 'checked'; readonly result: Checked }
  | { readonly kind: 'analysed'; readonly result: Analysed };
