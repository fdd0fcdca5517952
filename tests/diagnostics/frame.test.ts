/** Frames. The first line is `file:line:column: ...` as in the GNU Coding Standards, section Formatting Error Messages. */
import { describe, expect, it } from 'vitest';
import {
  displayWidth,
  plainPalette,
  renderDiagnostic,
  renderFramed,
  sourceText,
} from '../../src/diagnostics/index.js';
import type { Diagnostic, Palette } from '../../src/diagnostics/index.js';

const source = sourceText(
  'lesson.yaml',
  'title: Home\n\tbars: 1-4\n音楽: 音 x\nsay: |\n  one\n  two\n  three\n  four\n' +
    `long: ${'word '.repeat(40)}end\n`,
);

const finding = (text: string, more: Partial<Diagnostic> = {}, length = text.length): Diagnostic => {
  const start = source.text.indexOf(text);
  return {
    code: 'L0103',
    severity: 'error',
    message: 'a message',
    span: { source, start, end: start + length },
    ...more,
  };
};
const plain = (diagnostic: Diagnostic, width = 80): string =>
  renderDiagnostic(diagnostic, { width, palette: plainPalette });

describe('a frame', () => {
  it('shows place, message, source, label, reasons, help and other places', () => {
    expect(
      plain(
        finding('1-4', {
          label: 'here',
          notes: ['one reason', 'another'],
          help: 'do this',
          related: [{ span: { source, start: 0, end: 5 }, message: 'first time' }],
        }),
      ),
    ).toBe(
      [
        'lesson.yaml:2:8: error L0103: a message',
        '   2 |     bars: 1-4',
        '     |           ^^^ here',
        '   1 | title: Home',
        '     | ----- first time',
        '  why   one reason',
        '  why   another',
        '  help  do this',
        '',
      ].join('\n'),
    );
  });

  it('needs no place', () => {
    expect(
      plain({
        code: 'R0007',
        severity: 'error',
        message: 'there is no command `chekc`',
        help: 'did you mean `check`?',
      }),
    ).toBe('error R0007: there is no command `chekc`\n  help  did you mean `check`?\n');
  });

  it('puts one caret under an empty span, at the end of a line too', () => {
    expect(plain(finding('Home', {}, 0))).toBe(
      'lesson.yaml:1:8: error L0103: a message\n   1 | title: Home\n     |        ^\n',
    );
    expect(plain(finding('\n\tbars', {}, 0))).toBe(
      'lesson.yaml:1:12: error L0103: a message\n   1 | title: Home\n     |            ^\n',
    );
  });

  it('counts wide characters as two columns', () => {
    expect(plain(finding('音 x'))).toBe(
      'lesson.yaml:3:5: error L0103: a message\n   3 | 音楽: 音 x\n     |       ^^^^\n',
    );
  });

  it('underlines up to three lines', () => {
    expect(plain(finding('one\n  two'))).toBe(
      'lesson.yaml:5:3: error L0103: a message\n   5 |   one\n     |   ^^^\n   6 |   two\n     |   ^^^\n',
    );
  });

  it('shows the first of more lines', () => {
    expect(plain(finding('one\n  two\n  three\n  four', { label: 'all of it' }))).toBe(
      'lesson.yaml:5:3: error L0103: a message\n   5 |   one\n     |   ^^^... all of it\n',
    );
  });

  it.each([40, 60, 80, 120])('stays within %i columns', width => {
    const words = 'a message of many words '.repeat(8).trim();
    for (const at of [0, 20, 100, 190, 203]) {
      const start = source.text.indexOf('long:') + at;
      const text = plain(
        {
          code: 'L0103',
          severity: 'error',
          message: words,
          notes: [words],
          help: words,
          span: { source, start, end: start + 4 },
        },
        width,
      );
      for (const line of text.split('\n')) expect(displayWidth(line)).toBeLessThanOrEqual(width);
      const [shown = '', marks = ''] = text.split('\n').filter(line => line.includes(' | '));
      const from = marks.indexOf('^');
      // Where the line is cut at its ends, the marks still stand under the very characters of the span.
      expect(shown.slice(from, from + 4)).toBe(
        source.text
          .slice(start, start + 4)
          .trimEnd()
          .padEnd(Math.min(4, shown.length - from)),
      );
    }
  });

  it('leaves no control characters of the source', () => {
    const hostile = sourceText('x\u001B]0;y\u0007.yaml', 'a: \u001B[2J\u202Eevil\n');
    const text = renderDiagnostic(
      {
        code: 'L0103',
        severity: 'error',
        message: 'found \u001B[31m',
        label: '\u0008',
        span: { source: hostile, start: 3, end: 9 },
      },
      { width: 80, palette: plainPalette },
    );
    expect([...text].filter(char => char !== '\n' && /[\p{Cc}\u202A-\u202E]/u.test(char))).toEqual([]);
  });

  it('hands each part to the palette', () => {
    const tagged = Object.fromEntries(
      Object.keys(plainPalette).map(part => [
        part,
        (text: string) => (text === '' ? '' : `<${part}>${text}</>`),
      ]),
    ) as unknown as Palette;
    expect(
      renderFramed(
        {
          tone: 'warning',
          word: 'arguable',
          code: 'C0203',
          message: 'two readings',
          span: { source, start: 0, end: 5 },
          facts: [{ name: 'nearest', text: 'bar 1 is I' }],
        },
        { width: 80, palette: tagged },
      ),
    ).toBe(
      [
        '<place>lesson.yaml:1:1: </><warning>arguable C0203</><strong>: two readings</>',
        '<margin>   1 | </>title: Home',
        '<margin>     | </><warning>^^^^^</>',
        '  <margin>nearest</>  bar 1 is I',
        '',
      ].join('\n'),
    );
  });
});
