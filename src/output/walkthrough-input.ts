import type { Verdict } from '../claims/index.js';
import type { Analysis } from '../harmony/index.js';
import type { ClaimEntry, Lesson } from '../lesson/index.js';
import type { Instrumentation } from '../sound/index.js';
import type { Timeline } from '../timeline/index.js';
import type { PlayerBundle } from './player-bundle.js';

/** One version of the piece: the path as the lesson names it, and its analysis (which carries the score). */
export interface WalkthroughScore {
  readonly path: string;
  readonly analysis: Analysis;
}

/** Speech of one say, ask or answer, as `SpeechEvent.say` names it. */
export interface WalkthroughClip {
  readonly say: string;
  /** The sound as a file of a kind that browsers decode. */
  readonly file: Uint8Array;
  /** Silence that the encoder puts in front, in seconds; 0 where the file says so itself and decoders skip it. */
  readonly skipSeconds: number;
}

export interface WalkthroughInput {
  /** Name of the written files without an extension. */
  readonly name: string;
  readonly lesson: Lesson;
  /** The lesson's own score first, then every other version that it plays. */
  readonly scores: readonly [WalkthroughScore, ...WalkthroughScore[]];
  readonly claims: readonly { readonly claim: ClaimEntry; readonly verdict: Verdict }[];
  readonly timeline: Timeline;
  /** Empty for a page without recorded speech; its words are still shown at their times. */
  readonly clips: readonly WalkthroughClip[];
  /** Which instrument plays which voice; the piano where absent. */
  readonly instrumentation?: Instrumentation;
  /** Sound bank (SF2 or SF3) with the notes that the timeline strikes. */
  readonly bank: Uint8Array;
  /** Captions of the whole timeline as WebVTT. */
  readonly captions: string;
  readonly player: PlayerBundle;
}
