import type { FrameOptions } from '../diagnostics/index.js';
import { analysisJson } from './analysis-json.js';
import type { ScoreReports } from './analysis-report.js';
import { analysisText } from './analysis-text.js';

/**
 * Writes analyses in one format as the scores come, so that no analysis need be kept once it is written: text and JSON piece by piece, a
 * document in HTML whole at the end.
 */
export type AnalysisRenderer = (scores: ScoreReports, options: FrameOptions) => AsyncIterable<string>;

/** The formats of `analyse --format`. A new one is one file and one line here. */
export const analysisFormats = {
  text: analysisText,
  json: analysisJson,
  // It engraves, and what engraves is large: loaded where it is asked for.
  html: async function* (scores) {
    yield* (await import('./analysis-html.js')).analysisHtml(scores);
  },
} as const satisfies Readonly<Record<string, AnalysisRenderer>>;
