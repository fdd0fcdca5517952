import { displayWidth, wrap } from '../diagnostics/index.js';

const gap = '  ';

/**
 * Rows as a table for a terminal: columns as wide as their widest cell, the last one wrapped to what is left of `width`.
 * The first row is the heading.
 */
export function textTable(rows: readonly (readonly string[])[], width: number): readonly string[] {
  const columns = Math.max(0, ...rows.map(row => row.length));
  const widths = Array.from({ length: columns - 1 }, (_, column) =>
    Math.max(0, ...rows.map(row => displayWidth(row[column] ?? ''))),
  );
  const before = widths.reduce((sum, one) => sum + one + gap.length, 0);
  return rows.flatMap(row => {
    const head = widths.map((one, column) => pad(row[column] ?? '', one) + gap).join('');
    return wrap(row[columns - 1] ?? '', Math.max(20, width - before)).map((line, index) =>
      ((index === 0 ? head : ' '.repeat(before)) + line).trimEnd(),
    );
  });
}

const pad = (text: string, width: number): string =>
  text + ' '.repeat(Math.max(0, width - displayWidth(text)));
