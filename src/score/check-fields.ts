import type { Diagnostic, SourceText } from '../diagnostics/index.js';
import type { AbcText, Field } from './abc-text.js';
import { findingAt, type Range } from './finding.js';
import { mostAccidentals, readKey } from './key.js';
import { readMeter, readUnit } from './meter.js';
import type { Voice } from './model.js';
import { one } from './fraction.js';
import { readTempo } from './tempo.js';
import { layoutOf } from './voice-fields.js';

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

/** The value of a field without the space around it. */
function valueRange(field: Field): Range {
  const start = field.valueStart + (field.value.length - field.value.trimStart().length);
  return { start, end: Math.max(start + 1, start + field.value.trim().length) };
}

function checkValue(source: SourceText, field: Field, report: Report): void {
  const range = valueRange(field);
  const value = field.value.trim();
  if (field.letter === 'K') {
    const key = readKey(field.value);
    const onlyStaff = /^(?:clef|octave|transpose|middle|stafflines|name|treble|alto|tenor|bass|perc)\b/.test(
      value,
    );
    if (key === undefined && !onlyStaff) {
      report(
        findingAt(source, 'S0202', 'error', `\`${value}\` is no key`, range, {
          help: 'write a capital letter, `#` or `b`, and the mode: `K:Bm`, `K:F#min`, `K:D dorian`',
        }),
      );
    } else if (key !== undefined && Math.abs(key.signature.fifths) > mostAccidentals) {
      const { fifths } = key.signature;
      report(
        findingAt(
          source,
          'S0201',
          'warning',
          `the key \`${value}\` would need ${String(Math.abs(fifths))} ${fifths > 0 ? 'sharps' : 'flats'}`,
          range,
          {
            notes: ['a signature has at most seven; the notes are read with the signature as named'],
            help: 'write the key with its other name, for example A flat for G sharp',
          },
        ),
      );
    }
  } else if (field.letter === 'M' && readMeter(value) === undefined) {
    report(
      findingAt(source, 'S0203', 'error', `\`${value}\` is no metre`, range, {
        help: 'write two numbers, `C`, `C|` or `none`, for example `M:3/4`',
      }),
    );
  } else if (field.letter === 'L' && readUnit(value) === undefined) {
    report(
      findingAt(source, 'S0204', 'error', `\`${value}\` is no note length`, range, {
        help: 'write a fraction of a whole note, for example `L:1/8`',
      }),
    );
  } else if (field.letter === 'Q' && readTempo(value, one) === undefined) {
    report(
      findingAt(source, 'S0205', 'error', `\`${value}\` is no tempo`, range, {
        help: 'write a note value and beats a minute, for example `Q:1/4=96` or `Q:"Slow" 1/4=60`',
      }),
    );
  }
}

const unread: Readonly<Record<string, string>> = {
  m: 'macros are not expanded',
  s: 'symbol lines are not read',
};

function checkPlace(source: SourceText, field: Field, report: Report): void {
  const { letter, place } = field;
  if (place === 'body' && /[A-G]/.test(letter)) {
    report(
      findingAt(
        source,
        'S0108',
        'warning',
        `a line of music begins like a field: \`${letter}:\``,
        { start: field.start, end: field.start + 2 },
        {
          notes: ['the line is read as a field and its notes are lost'],
          help: 'put a space in front of the note',
        },
      ),
    );
  }
  const reason = letter === 'P' && place === 'header' ? 'the order of parts is not followed' : unread[letter];
  if (reason !== undefined)
    report(findingAt(source, 'S0109', 'warning', reason, field, { help: 'write it out in the music' }));
}

function checkLayout(source: SourceText, abc: AbcText, voices: readonly Voice[], report: Report): void {
  const layout = layoutOf(abc);
  if (layout === undefined) return;
  const named = new Set(layout.staves.flat());
  for (const id of named) {
    if (voices.some(voice => voice.id === id)) continue;
    report(
      findingAt(
        source,
        'S0207',
        'warning',
        `the layout names voice \`${id}\`, which the tune does not have`,
        layout.field,
        {
          help: 'check the spelling, or take the voice out of the directive',
        },
      ),
    );
  }
  for (const { id } of voices) {
    if (named.has(id)) continue;
    report(
      findingAt(source, 'S0206', 'warning', `voice \`${id}\` is missing from the layout`, layout.field, {
        notes: ['it is read and heard, but not drawn'],
        help: `add \`${id}\` to the directive`,
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
  for (const line of abc.music.slice(abc.start).matchAll(/^(?![%wU]).*$/gm)) {
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

/** Reports what is wrong with the fields and the outer form of the tune. */
export function checkFields(
  source: SourceText,
  abc: AbcText,
  voices: readonly Voice[],
  hasNotes: boolean,
  report: Report,
): void {
  checkMissing(source, abc, report);
  for (const field of abc.fields) {
    checkValue(source, field, report);
    checkPlace(source, field, report);
  }
  checkLayout(source, abc, voices, report);
  checkRest(source, abc, report);
  checkComments(source, abc, report);
  if (!hasNotes) {
    report(
      findingAt(source, 'S0105', 'error', 'the score holds no notes', lineAt(source, abc.start), {
        help: 'check that the music follows the `K:` line without an empty line between',
      }),
    );
  }
}
