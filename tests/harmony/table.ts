import { sources } from '../fixtures/harmony/sources.js';
import type { Sourced } from '../fixtures/harmony/sources.js';

/**
 * The rows of a table with their titles, ready for `test.each`. Throws where rows were lost or stand twice: a table that quietly
 * shrank would still be green.
 */
export function rowsOf<Row extends Sourced>(
  rows: readonly Row[],
  count: number,
  nameOf: (row: Row) => string,
): readonly (readonly [title: string, row: Row])[] {
  if (rows.length !== count) throw new Error(`${String(rows.length)} rows instead of ${String(count)}`);
  const names = rows.map(nameOf);
  const twice = names.find((name, at) => names.indexOf(name) !== at);
  if (twice !== undefined) throw new Error(`a row stands twice: ${twice}`);
  return rows.map((row): readonly [string, Row] => {
    const [title, section] = sources[row.source];
    return [`${nameOf(row)} [${title}, ${section}; ${row.mark}]`, row];
  });
}
