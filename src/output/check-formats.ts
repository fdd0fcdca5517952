import { checkJson } from './check-json.js';
import type { CheckOptions, CheckReport } from './check-report.js';
import { checkText } from './check-text.js';

/** Writes a report in one format. Renderers are pure and decide nothing. */
export type CheckRenderer = (report: CheckReport, options: CheckOptions) => string;

/** The formats of `check --format`. A new one is one file and one line here. */
export const checkFormats = {
  text: checkText,
  json: checkJson,
} as const satisfies Readonly<Record<string, CheckRenderer>>;
