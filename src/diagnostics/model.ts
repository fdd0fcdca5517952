import type { SourceText } from './source-text.js';
import type { Code } from './catalogue/index.js';

/** How bad a finding is. An `error` makes a run exit with 1; a `warning` and a `note` do not. */
export type Severity = 'error' | 'warning' | 'note';

/** A half-open range of UTF-16 offsets into the (normalised) text of one source. */
export interface Span {
  readonly source: SourceText;
  readonly start: number;
  readonly end: number;
}

/** One finding about the author's input. Findings are data: the core never throws on bad input. */
export interface Diagnostic {
  /** Stable code of the catalogue, for example `L0104`. */
  readonly code: Code;
  readonly severity: Severity;
  /** What is wrong: plain English, lower case start, no final stop, names in backticks. */
  readonly message: string;
  /** The shortest span that shows the fault; absent only where there is no text to point at. */
  readonly span?: Span;
  /** A few words printed beside the caret. */
  readonly label?: string;
  /** Why: facts that led to the finding. */
  readonly notes?: readonly string[];
  /** What to do about it. Only help proposes a change. */
  readonly help?: string;
  /** Other places that matter. */
  readonly related?: readonly { readonly span: Span; readonly message: string }[];
}

/** A value read together with everything that was found on the way. */
export interface Result<T> {
  readonly value: T;
  readonly diagnostics: readonly Diagnostic[];
}
