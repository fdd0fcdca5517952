import type { Diagnostic } from './model.js';

/**
 * Findings in the order in which a reader meets them: by file, by place, by code, whatever the order in which they were
 * made. `first` is the file that comes first; the others follow as they turn up, and findings without a place lead.
 */
export function inReadingOrder(diagnostics: readonly Diagnostic[], first: string): readonly Diagnostic[] {
  const fileOf = ({ span }: Diagnostic): string => span?.source.name ?? first;
  const files = [...new Set([first, ...diagnostics.map(fileOf)])];
  return [...diagnostics].sort(
    (a, b) =>
      files.indexOf(fileOf(a)) - files.indexOf(fileOf(b)) ||
      (a.span?.start ?? -1) - (b.span?.start ?? -1) ||
      (a.code < b.code ? -1 : a.code > b.code ? 1 : 0),
  );
}
