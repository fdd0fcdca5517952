import { mergeLines } from './merge-lines.js';

/** A stretch of a text and what takes its place; offsets are UTF-16 units of the former text. */
export interface LineChange {
  readonly from: number;
  readonly to: number;
  readonly insert: string;
}

const lengthOf = (lines: readonly string[]): number => lines.reduce((sum, line) => sum + line.length + 1, 0);

/** The changes that turn one text into another, line by line, so that a cursor between them stays where it is. Line ends are LF. */
export function lineChanges(from: string, to: string): readonly LineChange[] {
  // The last line is counted with a line end like the others; a change that reaches it is moved up to the one before.
  let at = 0;
  return mergeLines(undefined, from, to).flatMap((part): readonly LineChange[] => {
    const start = at;
    if (part.kind === 'lines') {
      at += lengthOf(part.lines);
      return [];
    }
    at += lengthOf(part.here);
    const insert = part.onDisk.map(line => `${line}\n`).join('');
    if (at <= from.length) return [{ from: start, to: at, insert }];
    return start === 0
      ? [{ from: 0, to: from.length, insert: insert.slice(0, -1) }]
      : [{ from: start - 1, to: from.length, insert: insert === '' ? '' : `\n${insert.slice(0, -1)}` }];
  });
}
