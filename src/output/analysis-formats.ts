import type { FrameOptions } from '../diagnostics/index.js';
import { analysisHtml } from './analysis-html.js';
import { analysisJson } from './analysis-json.js';
import type { ScoreReports } from './analysis-report.js';
import { analysisText } from './analysis-text.js';

/**
 * Writes analyses in one format, piece by piece as the scores come: neither the analyses nor the text of a long list of scores are ever
 * held whole.
 */
export type AnalysisRenderer = (scores: ScoreReports, options: FrameOptions) => AsyncIterable<string>;

/** The formats of `analyse --format`. A new one is one file and one line here. */
export const analysisFormats = {
  text: analysisText,
  json: analysisJson,
  html: analysisHtml,
} as const satisfies Readonly<Record<string, AnalysisRenderer>>;
