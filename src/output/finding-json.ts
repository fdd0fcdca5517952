import { catalogue, placeOf } from '../diagnostics/index.js';
import type { Code, Diagnostic, Span } from '../diagnostics/index.js';

/** A place as every JSON report writes it; lines and columns count from 1, columns in UTF-16 units. */
export interface PlaceJson {
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

export interface FindingJson extends Partial<PlaceJson> {
  readonly code: Code;
  readonly name: string;
  readonly severity: Diagnostic['severity'];
  readonly message: string;
  readonly label?: string;
  readonly notes: readonly string[];
  readonly help?: string;
  readonly related: readonly (PlaceJson & { readonly message: string })[];
}

export function placeJson(span: Span): PlaceJson {
  const start = placeOf(span.source, span.start);
  const end = placeOf(span.source, span.end);
  return { file: span.source.name, ...start, endLine: end.line, endColumn: end.column };
}

/** A finding as plain data, its place resolved. */
export function findingJson({
  code,
  severity,
  message,
  span,
  label,
  notes,
  help,
  related,
}: Diagnostic): FindingJson {
  return {
    code,
    name: catalogue[code].name,
    severity,
    message,
    ...(span === undefined ? {} : placeJson(span)),
    ...(label === undefined ? {} : { label }),
    notes: notes ?? [],
    ...(help === undefined ? {} : { help }),
    related: (related ?? []).map(other => ({ ...placeJson(other.span), message: other.message })),
  };
}
