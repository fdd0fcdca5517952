import type { Diagnostic, SourceText } from '../diagnostics/index.js';
import type { AbcText } from './abc-text.js';
import { findingAt, type Range } from './finding.js';

type Report = (finding: Diagnostic) => void;

/** The line that starts at an offset, without its end. */
function lineAt(source: SourceText, start: number): Range {
  const end = source.text.indexOf('\n', start);
  return { start, end: end < 0 ? source.text.length : Math.max(end, start) };
}

function checkMissing(source: SourceText, abc: AbcText, report: Report): void {
  const header = new Set(abc.fields.filter(field => field.place === 'header').map(field => field.letter));
  const first = lineAt(source, abc.start);
  if (!header.has('X'))
    report(
      findingAt(source, 'S0101', 'warning', 'the tune has no number', first, {
        help: 'put `X:1` in the first line',
      }),
    );
  if (!header.has('K')) {
    report(
      findingAt(source, 'S0102', 'error', 'the tune has no key', first, {
        notes: ['every note is read without a signature'],
        help: 'write the key as the last field in front of the music, for example `K:Gm`, or `K:none`',
      }),
    );
  }
  if (!header.has('M')) {
    report(
      findingAt(source, 'S0104', 'warning', 'the tune has no metre', first, {
        notes: ['the metre is read as free: bars cannot be checked'],
        help: 'write the metre, for example `M:3/4`, or `M:none`',
      }),
    );
  }
  if (!header.has('L')) {
    report(
      findingAt(source, 'S0103', 'note', 'the tune has no unit note length', first, {
        notes: ['it follows from the metre: 1/16 below 3/4, else 1/8'],
        help: 'write it, for example `L:1/8`',
      }),
    );
  }
}

/** What stands behind the end of the tune. */
function checkRest(source: SourceText, abc: AbcText, report: Report): void {
  const rest = source.text.slice(abc.end);
  const found = /^(?!%)[^\S\n]*(\S.*)$/m.exec(rest);
  if (found === null) return;
  const start = abc.end + found.index + (found[0].length - (found[1] ?? '').length);
  const range = { start, end: start + (found[1] ?? '').trimEnd().length };
  if ((found[1] ?? '').startsWith('X:')) {
    report(
      findingAt(source, 'S0106', 'warning', 'the file holds another tune', range, {
        notes: ['only the first tune is read'],
        help: 'put it into a file of its own',
      }),
    );
  } else {
    report(
      findingAt(
        source,
        'S0107',
        'warning',
        'this text stands after the empty line that ends the tune',
        range,
        {
          notes: ['it is neither read nor drawn'],
          help: 'take the empty line out, or write `%` in it',
        },
      ),
    );
  }
}

/** Percent signs that cut off a text in quotes. */
function checkComments(source: SourceText, abc: AbcText, report: Report): void {
  for (const line of abc.music.slice(abc.start).matchAll(/^(?!%).*$/gm)) {
    const start = abc.start + line.index;
    const cut = start + line[0].trimEnd().length;
    const quotes = line[0].split('"').length - 1;
    const percent = source.text.slice(cut, start + line[0].length).search(/\S/);
    if (quotes % 2 === 0 || percent < 0 || source.text[cut + percent] !== '%') continue;
    report(
      findingAt(
        source,
        'S0110',
        'warning',
        'the percent sign cuts off a text in quotes',
        { start: cut + percent, end: cut + percent + 1 },
        {
          notes: ['`%` starts a comment even inside quotes'],
          help: 'write `\\%`',
        },
      ),
    );
  }
}

/** A text that is no tune at all: nothing else need be said about it. */
export function checkKind(source: SourceText): Diagnostic | undefined {
  if (source.text.trim() === '') {
    return findingAt(
      source,
      'S0105',
      'error',
      'the score is empty',
      { start: 0, end: 1 },
      { help: 'write or paste one tune in ABC notation: its fields, down to `K:`, and then the notes' },
    );
  }
  if (!/^\s*<[?!a-z]/i.test(source.text)) return undefined;
  return findingAt(source, 'S0011', 'error', 'the score is XML, and only ABC is read', lineAt(source, 0), {
    help: 'write the score in ABC notation, or convert it',
  });
}

/** Reports what is missing from the outer form of the tune, and what stands outside it and is lost. */
export function checkOutline(source: SourceText, abc: AbcText, hasNotes: boolean, report: Report): void {
  checkMissing(source, abc, report);
  checkRest(source, abc, report);
  checkComments(source, abc, report);
  if (hasNotes) return;
  report(
    findingAt(source, 'S0105', 'error', 'the score holds no notes', lineAt(source, abc.start), {
      help: 'check that the music follows the `K:` line without an empty line between',
    }),
  );
}
