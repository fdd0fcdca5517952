import { displayWidth, graphemes, harmless, wrap } from './display-width.js';
import type { Diagnostic, Span } from './model.js';
import { lineText, placeOf } from './source-text.js';

export type Tone = 'error' | 'warning' | 'note' | 'good';

/** How to colour each part. A shell passes functions that write escape sequences; the core knows no terminal. */
export type Palette = Readonly<Record<Tone | 'place' | 'margin' | 'strong', (text: string) => string>>;

const same = (text: string): string => text;
export const plainPalette: Palette = {
  error: same,
  warning: same,
  note: same,
  good: same,
  place: same,
  margin: same,
  strong: same,
};

export interface FrameOptions {
  /** Columns of the terminal. */
  readonly width: number;
  readonly palette: Palette;
}

/** A line under the frame: `help  did you mean \`title\`?` */
export interface Fact {
  readonly name: string;
  readonly text: string;
}

/** Something to be shown in its source: a finding, or the verdict of a claim. */
export interface Framed {
  readonly tone: Tone;
  /** The first word of the headline: `error`, `fails`. */
  readonly word: string;
  readonly code: string;
  readonly message: string;
  readonly span?: Span;
  readonly label?: string;
  readonly facts: readonly Fact[];
  readonly related?: Diagnostic['related'];
}

const noBreak = '\u00A0';
const smallestWidth = 40;
const tabWidth = 4;
/** Longer spans show their first line only. */
const mostLines = 3;

/** A finding as text: where it is, what it is, the line of the source with the span underlined, why, and what to do. */
export function renderDiagnostic(diagnostic: Diagnostic, options: FrameOptions): string {
  const { severity, notes = [], help, ...rest } = diagnostic;
  const facts = [
    ...notes.map(text => ({ name: 'why', text })),
    ...(help === undefined ? [] : [{ name: 'help', text: help }]),
  ];
  return renderFramed({ ...rest, tone: severity, word: severity, facts }, options);
}

/** The same for anything that is shown in its source. Lines end with LF, the last one too. */
export function renderFramed(item: Framed, options: FrameOptions): string {
  const width = Math.max(smallestWidth, options.width);
  const { palette } = options;
  const place = item.span === undefined ? '' : `${placeText(item.span)}: `;
  // The verdict and its code stay on one line.
  const subject = `${item.word} ${item.code}:`.replaceAll(' ', noBreak);
  const headline = wrap(harmless(`${place}${subject} ${item.message}`), width).map(line =>
    line.replaceAll(noBreak, ' '),
  );
  const margin = marginWidth(item);
  const lines = [
    colourHeadline(headline, place, item, palette),
    ...(item.span === undefined
      ? []
      : sourceLines(item.span, item.label, '^', palette[item.tone], margin, width, palette)),
    ...(item.related ?? []).flatMap(({ span, message }) =>
      relatedLines(item, span, message, margin, width, palette),
    ),
    ...factLines(item.facts, margin, width, palette),
  ];
  return lines.map(line => `${line.trimEnd()}\n`).join('');
}

/** `lesson.yaml:14:7`, as the GNU Coding Standards (Formatting Error Messages) want it, so that editors can follow it. */
function placeText(span: Span): string {
  const { line, column } = placeOf(span.source, span.start);
  return `${span.source.name}:${line}:${column}`;
}

function colourHeadline(lines: readonly string[], place: string, item: Framed, palette: Palette): string {
  const word = `${item.word} ${item.code}`;
  const [first = '', ...rest] = lines;
  const shownPlace = harmless(place);
  const body = first.startsWith(shownPlace) ? first.slice(shownPlace.length) : first;
  const head = first.startsWith(shownPlace) ? palette.place(shownPlace) : '';
  const coloured = body.startsWith(word)
    ? `${palette[item.tone](word)}${palette.strong(body.slice(word.length))}`
    : palette.strong(body);
  return [head + coloured, ...rest.map(line => palette.strong(line))].join('\n');
}

function marginWidth(item: Framed): number {
  const spans = [item.span, ...(item.related ?? []).map(({ span }) => span)];
  const last = Math.max(
    0,
    ...spans.map(span => (span === undefined ? 0 : placeOf(span.source, span.end).line)),
  );
  return Math.max(4, String(last).length + 1);
}

function relatedLines(
  item: Framed,
  span: Span,
  message: string,
  margin: number,
  width: number,
  palette: Palette,
): readonly string[] {
  const elsewhere =
    span.source.name === item.span?.source.name
      ? []
      : [`${' '.repeat(margin)} ${palette.place(placeText(span))}`];
  return [...elsewhere, ...sourceLines(span, message, '-', palette.note, margin, width, palette)];
}

function sourceLines(
  span: Span,
  label: string | undefined,
  mark: string,
  colour: (text: string) => string,
  margin: number,
  width: number,
  palette: Palette,
): readonly string[] {
  const first = placeOf(span.source, span.start);
  const last = placeOf(span.source, Math.max(span.start, span.end));
  const lineCount = last.line - first.line + 1;
  const shown = lineCount > mostLines ? 1 : lineCount;
  const gutter = (text: string): string => palette.margin(`${text.padStart(margin)} | `);
  const lines: string[] = [];
  for (let index = 0; index < shown; index++) {
    const line = first.line + index;
    const text = lineText(span.source, line);
    const from = index === 0 ? first.column - 1 : text.length - text.trimStart().length;
    const to = line === last.line ? last.column - 1 : text.trimEnd().length;
    const view = windowOf(text, from, Math.max(to, from), width - margin - 3);
    lines.push(gutter(String(line)) + view.text);
    const isLast = index === shown - 1;
    const tail = isLast
      ? `${shown < lineCount ? '...' : ''}${label === undefined ? '' : ` ${harmless(label)}`}`
      : '';
    lines.push(
      gutter('') + ' '.repeat(view.from) + colour(mark.repeat(Math.max(1, view.to - view.from)) + tail),
    );
  }
  return lines;
}

/** The part of a line that fits, with the columns of the span in it. Tabs become spaces. */
function windowOf(
  line: string,
  from: number,
  to: number,
  width: number,
): { readonly text: string; readonly from: number; readonly to: number } {
  let text = '';
  let column = 0;
  let start: number | undefined;
  let end: number | undefined;
  const cells = graphemes(line).map(({ text: grapheme, offset, width: own }) => {
    if (start === undefined && offset >= from) start = column;
    if (end === undefined && offset >= to) end = column;
    const cell = grapheme === '\t' ? ' '.repeat(tabWidth - (column % tabWidth)) : harmless(grapheme);
    const cellWidth = grapheme === '\t' ? cell.length : own;
    const at = column;
    column += cellWidth;
    return { cell, at, width: cellWidth };
  });
  start ??= column;
  end ??= column;
  if (column <= width) return { text: cells.map(({ cell }) => cell).join(''), from: start, to: end };

  const left = Math.max(0, Math.min(start - Math.floor(width / 4), column - width + 1));
  const room = width - (left > 0 ? 1 : 0) - 1;
  let used = 0;
  for (const { cell, at, width: own } of cells) {
    if (at < left || used + own > room) continue;
    text += cell;
    used += own;
  }
  const lead = left > 0 ? '…' : '';
  const firstAt = cells.find(({ at }) => at >= left)?.at ?? left;
  const cut = firstAt + used < column ? '…' : '';
  const shift = lead.length - firstAt;
  return {
    text: lead + text + cut,
    from: Math.max(0, start + shift),
    to: Math.min(end + shift, lead.length + used),
  };
}

function factLines(
  facts: readonly Fact[],
  margin: number,
  width: number,
  palette: Palette,
): readonly string[] {
  const nameWidth = Math.max(0, ...facts.map(({ name }) => displayWidth(name)));
  const indent = ' '.repeat(margin - 2);
  return facts.flatMap(({ name, text }) => {
    const room = Math.max(20, width - margin - nameWidth);
    return wrap(harmless(text), room).map((line, index) => {
      const head = index === 0 ? palette.margin(name.padEnd(nameWidth)) : ' '.repeat(nameWidth);
      return `${indent}${head}  ${line}`;
    });
  });
}
