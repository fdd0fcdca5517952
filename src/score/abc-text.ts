import type { SourceText } from '../diagnostics/index.js';

/** An information field (ABC 2.1, section 3), on a line of its own or inline, or a `%%` directive (`letter` is `%`). */
export interface Field {
  readonly letter: string;
  readonly value: string;
  /** Range of the field in the source. */
  readonly start: number;
  readonly end: number;
  /** Offset of the first character of `value`. */
  readonly valueStart: number;
  /** Where the field stands: before the music, on a line between the music, or in brackets inside it. */
  readonly place: 'header' | 'body' | 'inline';
}

/** The ABC source taken apart into information fields and music code. Offsets are those of the source. */
export interface AbcText {
  readonly fields: readonly Field[];
  /** Music code in its place; everything else of the source is blanked out. */
  readonly music: string;
  /** The same with lyrics and definitions of symbols, which the parser reads together with the music. */
  readonly parserText: string;
  /** Offsets of the `&` that start an overlay. */
  readonly overlays: readonly number[];
  /** Offset of the first line of the tune. */
  readonly start: number;
  /** Offset where the tune ends: the first blank line or the next tune (ABC 2.1, section 2.2). */
  readonly end: number;
}

const inlineField = /\[([A-Za-z]):([^\]\n]*)\]/y;
/** Lower case letters are fields only where ABC 2.1, section 3, defines one, so that `d:|` at a line start stays music. */
const fieldLine = /^([A-Zmrsw+]):/;
const comment = /(^|[^\\])%.*$/;

/** A text with its escaped percent signs made plain (ABC 2.1, section 8.2). */
export const unescapeText = (text: string): string => text.replaceAll('\\%', '%');

const blank = (length: number): string => ' '.repeat(length);
/**
 * A text that no reader takes for music nor for the blank line that ends a tune. A remark is not blank behind its sign,
 * because the parser's time grows with the square of blanks in a row.
 */
export const hidden = (line: string): string => (line === '' ? '' : `%${'-'.repeat(line.length - 1)}`);

/** A line of music code with its inline fields, overlay signs and comment blanked. */
function scanMusicLine(line: string, at: number, fields: Field[], overlays: number[]): string {
  // A comment begins at a percent sign even inside quotes (ABC 2.1, section 2.2.5), and the parser agrees.
  const code = line.replace(comment, '$1');
  let out = '';
  for (let i = 0; i < code.length;) {
    const character = code.charAt(i);
    inlineField.lastIndex = i;
    const field = character === '[' ? inlineField.exec(code) : null;
    if (field !== null) {
      const [text, letter = '', value = ''] = field;
      const start = at + i;
      fields.push({ letter, value, start, end: start + text.length, valueStart: start + 3, place: 'inline' });
      out += blank(text.length);
      i += text.length;
      continue;
    }
    const closing = character === '"' || character === '!' ? code.indexOf(character, i + 1) : -1;
    const next = closing > 0 ? closing + 1 : i + 1;
    if (character === '&') overlays.push(at + i);
    out += character === '&' ? ' ' : code.slice(i, next);
    i = next;
  }
  out = out.padEnd(line.length);
  return out.trim() === '' ? hidden(line) : out;
}

/** Takes the first tune of the source apart. The file header in front of it (ABC 2.1, section 2.2.2) counts as header. */
export function readAbcText(source: SourceText): AbcText {
  const { text } = source;
  const fields: Field[] = [];
  const overlays: number[] = [];
  const firstTune = /^X:/m.exec(text)?.index ?? text.length - text.trimStart().length;
  const start = text.lastIndexOf('\n', firstTune - 1) + 1;
  // Lines in front of the tune become one, since an empty line among them would end it.
  let music = start < 2 ? blank(start) : `${hidden(text.slice(1, start))}\n`;
  let parserText = music;
  let inHeader = true;
  let textBlock: string | undefined;
  let end = text.length;
  const addField = (letter: string, value: string, at: number, valueStart: number): void => {
    const previous = fields.at(-1);
    if (letter === '+' && previous !== undefined && previous.letter !== 'w')
      fields.splice(-1, 1, { ...previous, value: `${previous.value} ${value.trim()}` });
    else
      fields.push({
        letter,
        value,
        start: at,
        end: valueStart + value.length,
        valueStart,
        place: inHeader ? 'header' : 'body',
      });
  };
  for (const [index, at] of source.lineStarts.entries()) {
    const next = source.lineStarts[index + 1];
    const line = text.slice(at, next === undefined ? text.length : next - 1);
    if (at > start && (line.trim() === '' || line.startsWith('X:'))) {
      end = at;
      break;
    }
    const letter = fieldLine.exec(line)?.[1];
    let code = hidden(line);
    let forParser: string | undefined;
    if (textBlock !== undefined) {
      if (line.startsWith(`%%end${textBlock}`)) textBlock = undefined;
    } else if (line.startsWith('%%')) {
      addField('%', line.slice(2), at, at + 2);
      textBlock = /^%%begin(\w+)/.exec(line)?.[1];
    } else if (letter !== undefined) {
      addField(letter, line.slice(2).replace(comment, '$1'), at, at + 2);
      if (letter === 'w' || letter === 'U') forParser = line;
      if (letter === 'K' && at >= start) inHeader = false;
    } else if (at >= start && !line.startsWith('%') && line.trim() !== '') {
      inHeader = false;
      code = scanMusicLine(line, at, fields, overlays);
    }
    if (at < start) continue;
    const lineEnd = next === undefined ? '' : '\n';
    music += code + lineEnd;
    parserText += (forParser ?? code) + lineEnd;
  }
  return { fields, music, parserText, overlays, start, end };
}
