import type { Diagnostic } from '../diagnostics/index.js';
import type { Analysis } from '../harmony/index.js';

/** What `analyse` found in one score. */
export interface ScoreReport {
  /** The path as given. */
  readonly file: string;
  readonly diagnostics: readonly Diagnostic[];
  /** Absent where the score could not be read. */
  readonly analysis?: Analysis;
}

/** What `analyse` found in one score after another; every output of `analyse` is made from it. */
export type ScoreReports = Iterable<ScoreReport> | AsyncIterable<ScoreReport>;
