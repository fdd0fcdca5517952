import { checkGithub } from './check-github.js';
import { checkJson } from './check-json.js';
import { checkJunit } from './check-junit.js';
import type { CheckOptions, CheckReport } from './check-report.js';
import { checkSarif } from './check-sarif.js';
import { checkText } from './check-text.js';

/** Writes a report in one format. Renderers decide nothing. */
export type CheckRenderer = (report: CheckReport, options: CheckOptions) => string | Promise<string>;

/** The formats of `check --format`. A new one is one file and one line here. */
export const checkFormats = {
  text: checkText,
  json: checkJson,
  sarif: checkSarif,
  junit: checkJunit,
  github: checkGithub,
  // It engraves, and what engraves is large: loaded where it is asked for.
  html: async (report, options) => (await import('./check-html.js')).checkHtml(report, options),
} as const satisfies Readonly<Record<string, CheckRenderer>>;
