import type { SourceText } from '../diagnostics/index.js';

/** An information field (ABC 2.1, section 3), on a line of its own or inline, or a `%%` directive (`letter` is `%`). */
export interface Field {
  readonly letter: string;
  readonly value: string;
  /** Offset of the first character of the field. */
  readonly start: number;
  readonly end: number;
  /** Offset of the first character of `value`. */
  readonly valueStart: number;
  readonly inline: boolean;
  /** Whether the field stands before the music. */
  readonly header: boolean;
}

/** The ABC source taken apart into information fields and music code. Offsets are those of the source. */
export interface AbcText {
  readonly fields: readonly Field[];
  /** As long as the source: music code, lyrics and symbol definitions in place, everything else blanked out. */
  readonly music: string;
  /** Offsets of the `&` that start an overlay. */
  readonly overlays: readonly number[];
  /** Offset where the header ends. */
  readonly bodyStart: number;
  /** Offset where the tune ends: the first blank line or the next tune (ABC 2.1, section 2.2). */
  readonly end: number;
}

const inlineField = /\[([A-Za-z]):([^\]\n]*)\]/y;
/** Lower case letters are fields only where ABC 2.1, section 3, defines one, so that `d:|` at a line start stays music. */
const fieldLine = /^([A-Zmrsw+]):/;
/** Fields that the reader of music code needs in their place: lyrics, symbol lines and user defined symbols. */
const keptFields = 'wsU';

const blank = (length: number): string => ' '.repeat(length);
/** A line that no reader takes for music nor for the blank line that ends a tune. */
const hiddenLine = (length: number): string => (length === 0 ? '' : `%${blank(length - 1)}`);

/** One line of music code with its inline fields, overlay signs and comment blanked. */
function scanMusicLine(line: string, at: number, fields: Field[], overlays: number[]): string {
  let out = '';
  for (let i = 0; i < line.length;) {
    const character = line.charAt(i);
    if (character === '%' && line[i - 1] !== '\\') break;
    inlineField.lastIndex = i;
    const field = character === '[' ? inlineField.exec(line) : null;
    if (field !== null) {
      const [text, letter = '', value = ''] = field;
      const start = at + i;
      fields.push({
        letter,
        value,
        start,
        end: start + text.length,
        valueStart: start + 3,
        inline: true,
        header: false,
      });
      out += blank(text.length);
      i += text.length;
      continue;
    }
    const closing = character === '"' || character === '!' ? line.indexOf(character, i + 1) : -1;
    if (closing > 0) {
      out += line.slice(i, closing + 1);
      i = closing + 1;
      continue;
    }
    if (character === '&') overlays.push(at + i);
    out += character === '&' ? ' ' : character;
    i += 1;
  }
  out = out.padEnd(line.length);
  return out.trim() === '' ? hiddenLine(line.length) : out;
}

/** Takes the first tune of the source apart. */
export function readAbcText(source: SourceText): AbcText {
  const { text } = source;
  const fields: Field[] = [];
  const overlays: number[] = [];
  let music = '';
  let header = true;
  let bodyStart = text.length;
  let end = text.length;
  const firstTune = /^X:/m.exec(text)?.index ?? 0;
  for (const [index, at] of source.lineStarts.entries()) {
    const next = source.lineStarts[index + 1];
    const line = text.slice(at, next === undefined ? text.length : next - 1);
    const started = at >= firstTune && music.trim() !== '';
    if (started && (line.trim() === '' || (at > firstTune && line.startsWith('X:')))) {
      end = at;
      break;
    }
    const match = fieldLine.exec(line);
    if (line.startsWith('%%')) {
      fields.push({
        letter: '%',
        value: line.slice(2),
        start: at,
        end: at + line.length,
        valueStart: at + 2,
        inline: false,
        header,
      });
      music += hiddenLine(line.length);
    } else if (match !== null) {
      const letter = match[1] ?? '';
      const value = line.slice(2).replace(/(^|[^\\])%.*$/, '$1');
      fields.push({
        letter,
        value,
        start: at,
        end: at + 2 + value.length,
        valueStart: at + 2,
        inline: false,
        header,
      });
      music += keptFields.includes(letter) ? line : hiddenLine(line.length);
      if (letter === 'K' && header) {
        header = false;
        bodyStart = next ?? text.length;
      }
    } else if (at < firstTune || line.startsWith('%') || line.trim() === '') {
      music += hiddenLine(line.length);
    } else {
      if (header) bodyStart = at;
      header = false;
      music += scanMusicLine(line, at, fields, overlays);
    }
    if (next !== undefined) music += '\n';
  }
  return { fields, music: music.padEnd(text.length), overlays, bodyStart, end };
}
