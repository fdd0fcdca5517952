import type { Span, SourceText } from '../diagnostics/index.js';
import type { Conventions } from '../claims/index.js';
import type { Key } from '../harmony/index.js';
import type { Fraction } from '../score/index.js';
import type { InstrumentName } from './instrument.js';

export type { InstrumentName } from './instrument.js';

/** A value and where it stands in the lesson's text. */
export interface Located<T> {
  readonly value: T;
  readonly span: Span;
}

/** Written bar numbers, both inclusive; `0` is the pickup. Labels such as `8b` name one ending, a plain `8` all of them. */
export interface BarRange {
  readonly first: string;
  readonly last: string;
  /** Where the range stands in the lesson. */
  readonly span: Span;
}

export type PlayStyle = 'written' | 'stack' | 'block' | 'arpeggio';

export interface PlayAction {
  readonly kind: 'play';
  readonly bars: BarRange;
  readonly as: PlayStyle;
  /** Percentage of the lesson's tempo. */
  readonly tempo: number;
  /** Id or name of the one voice of the score that is played; every voice where absent. */
  readonly voice?: Located<string>;
  /** Path of another version of the piece, relative to the lesson. */
  readonly score?: Located<string>;
  /** How often the bars are played, with a silence between. */
  readonly times: number;
  /** How often they go round in time, without a break, within each of the times; once where absent. */
  readonly loop?: number;
  /** The next `say` is spoken over this playing. */
  readonly under: boolean;
  readonly span: Span;
}

/** A statement in the narration that is checked: the words as shown and the claim behind them. */
export interface WordsClaim {
  readonly words: string;
  /** Offsets of the words in `SayAction.text`. */
  readonly from: number;
  readonly to: number;
  readonly claim: ClaimEntry;
}

export interface SayAction {
  readonly kind: 'say';
  /** Stable within a lesson: number of the step and number among its says and asks, both 1-based: `3.2`. */
  readonly id: string;
  /** The Markdown as written, marks and claims included. */
  readonly markdown: string;
  /** Plain text as shown: markup and claims taken out, paragraphs joined by a blank line. */
  readonly text: string;
  /** Safe HTML: words with a claim are `<span class="claim" data-claim="PATH">`. */
  readonly html: string;
  readonly claims: readonly WordsClaim[];
  readonly span: Span;
}

export interface WaitAction {
  readonly kind: 'wait';
  readonly seconds: number;
  readonly span: Span;
}

export interface AskAction {
  readonly kind: 'ask';
  /** As a say's id, from the same count. */
  readonly id: string;
  readonly question: string;
  readonly choices: readonly string[];
  readonly answer: string;
  readonly because?: ClaimEntry;
  readonly span: Span;
}

export type Action = PlayAction | SayAction | WaitAction | AskAction;

/** A claim as the author wrote it. */
export interface ClaimEntry {
  /** Place in the lesson: `steps/0/claims/2`, `steps/0/script/1/say/0`, `steps/0/script/3/because`. */
  readonly path: string;
  readonly text: string;
  readonly span: Span;
  /** Where each character of `text` stands in the lesson's source; one more entry for its end. */
  readonly offsets: readonly number[];
  /** Index of the step. */
  readonly step: number;
  /** The author's reason for setting a verdict aside. */
  readonly accept?: Located<string>;
}

export type Layer = 'chords' | 'numerals' | 'figures' | 'keys' | 'functions' | 'non-chord tones';

export interface Step {
  readonly title: string;
  /** The bars that the step is about; the whole piece where absent. */
  readonly bars?: BarRange;
  /** Key in which this step's numerals are read, where it differs from `home`. */
  readonly home?: Key;
  readonly script: readonly Action[];
  readonly show: readonly Layer[];
  readonly span: Span;
}

export interface Narrator {
  readonly voice: string;
  /** Words a minute. */
  readonly pace: number;
}

/** How the music sounds. */
export interface LessonSound {
  readonly instrument: InstrumentName;
  /** Instruments of single voices, named by id or printed name as in `PlayAction.voice`. */
  readonly voices: readonly { readonly voice: Located<string>; readonly instrument: InstrumentName }[];
  /** Whether written music is played with the pedal, changed with the harmony and the bar: for broken chords. */
  readonly pedal: boolean;
}

/** Where the lesson has its own mind about silences and about what deserves a remark; seconds but for `fastest-speech`. */
export interface Pacing {
  /** Words a minute. */
  readonly 'fastest-speech'?: number;
  /** For each word of a caption. */
  readonly 'caption-word'?: number;
  readonly 'longest-talk'?: number;
  /** How far words may go on after the music under them. */
  readonly overrun?: number;
  readonly 'before-example'?: number;
  readonly 'after-example'?: number;
  /** After a question, where nobody can press a key. */
  readonly thinking?: number;
}

export interface Lesson {
  readonly source: SourceText;
  readonly title: string;
  readonly author?: string;
  readonly description?: string;
  /** Path of the score as written, relative to the lesson. */
  readonly score: Located<string>;
  readonly home: Located<Key>;
  /** Note value of one beat where the lesson overrides the metre's own. */
  readonly beat?: Fraction;
  readonly conventions: Conventions;
  readonly narrator: Narrator;
  readonly sound?: LessonSound;
  readonly pacing?: Pacing;
  /** Beats a minute of the piece as played in the lesson; the score's own tempo where absent. */
  readonly tempo?: number;
  /** Written form to spoken form, the author's own. */
  readonly lexicon: Readonly<Record<string, string>>;
  readonly steps: readonly Step[];
  /** Every claim in the order of the source: from `claims:`, from narration and from `because:`. */
  readonly claims: readonly ClaimEntry[];
}
