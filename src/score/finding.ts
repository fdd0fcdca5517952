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
