/** How the lines of a file end. */
export type LineEnd = '\n' | '\r\n';

/** The line end that a text has most often. */
export function lineEndOf(text: string): LineEnd {
  const windows = text.match(/\r\n/gu)?.length ?? 0;
  const all = text.match(/\n/gu)?.length ?? 0;
  return windows * 2 > all ? '\r\n' : '\n';
}

/** The text as the editor has it. */
export const withLineFeeds = (text: string): string => text.replaceAll(/\r\n?/gu, '\n');

/** The editor's text as the file has it. */
export const withLineEnd = (text: string, lineEnd: LineEnd): string =>
  lineEnd === '\n' ? text : text.replaceAll('\n', lineEnd);
