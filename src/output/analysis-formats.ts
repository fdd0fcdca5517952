import type { FrameOptions } from '../diagnostics/index.js';
import { analysisHtml } from './analysis-html.js';
import { analysisJson } from './analysis-json.js';
import type { AnalysisReport } from './analysis-report.js';
import { analysisText } from './analysis-text.js';

/** Writes analyses in one format. */
export type AnalysisRenderer = (report: AnalysisReport, options: FrameOptions) => string | Promise<string>;

/** The formats of `analyse --format`. A new one is one file and one line here. */
export const analysisFormats = {
  text: analysisText,
  json: analysisJson,
  html: analysisHtml,
} as const satisfies Readonly<Record<string, AnalysisRenderer>>;
