import type { Diagnostic, Severity, SourceText } from '../diagnostics/index.js';

/** A range of the source. */
export interface Range {
  readonly start: number;
  readonly end: number;
}

type Extras = Omit<Diagnostic, 'code' | 'severity' | 'message' | 'span'>;

/** A finding about a range of one source. */
export function findingAt(
  source: SourceText,
  code: Diagnostic['code'],
  severity: Severity,
  message: string,
  range: Range,
  extras: Extras = {},
): Diagnostic {
  return { code, severity, message, span: { source, start: range.start, end: range.end }, ...extras };
}

const longestQuotation = 60;

/** Words of the source as a message quotes them: without the space around them, and cut where they are long. */
export function quoted(text: string): string {
  const words = text.trim();
  return words.length <= longestQuotation ? `\`${words}\`` : `\`${words.slice(0, longestQuotation - 1)}…\``;
}
