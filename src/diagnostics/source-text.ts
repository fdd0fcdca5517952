/** One file's text as every stage sees it: BOM removed, line ends folded to LF, with its line index. */
export interface SourceText {
  /** The path or name as the user gave it. */
  readonly name: string;
  readonly text: string;
  /** Offset of the first character of each line. */
  readonly lineStarts: readonly number[];
}

/** A 1-based place; columns count UTF-16 code units. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

/** Makes a source out of raw text. CRLF and CR become LF so that offsets agree between all parsers. */
export function sourceText(name: string, raw: string): SourceText {
  const text = raw.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n');
  const lineStarts = [0];
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) lineStarts.push(at + 1);
  return { name, text, lineStarts };
}

/** Line and column of an offset; offsets outside the text are clamped to it. */
export function placeOf(source: SourceText, offset: number): Place {
  const at = Math.max(0, Math.min(offset, source.text.length));
  let low = 0;
  let high = source.lineStarts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((source.lineStarts[middle] ?? 0) <= at) low = middle;
    else high = middle - 1;
  }
  return { line: low + 1, column: at - (source.lineStarts[low] ?? 0) + 1 };
}

/** Offset of a 1-based place; a column past the end of its line is clamped to the line end. */
export function offsetOf(source: SourceText, place: Place): number {
  const start = source.lineStarts[place.line - 1] ?? source.text.length;
  const next = source.lineStarts[place.line];
  const end = next === undefined ? source.text.length : next - 1;
  return Math.min(start + place.column - 1, end);
}

/** The text of a 1-based line without its line end, or an empty string outside the text. */
export function lineText(source: SourceText, line: number): string {
  const start = source.lineStarts[line - 1];
  if (start === undefined) return '';
  const next = source.lineStarts[line];
  return source.text.slice(start, next === undefined ? source.text.length : next - 1);
}
