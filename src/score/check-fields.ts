import type { Diagnostic, SourceText } from '../diagnostics/index.js';
import type { AbcText, Field } from './abc-text.js';
import { findingAt, quoted, type Range } from './finding.js';
import { mostAccidentals, readKey } from './key.js';
import { readMeter, readUnit } from './meter.js';
import type { Voice } from './model.js';
import { one } from './fraction.js';
import { readTempo } from './tempo.js';
import { layoutOf } from './voice-fields.js';

type Report = (finding: Diagnostic) => void;

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
        findingAt(source, 'S0202', 'error', `${quoted(value)} is no key`, range, {
          help: 'write a capital letter, `#` or `b`, and the mode: `K:Bm`, `K:F#min`, `K:D dorian`',
        }),
      );
    } else if (/^[A-G][♯♭]/u.test(value)) {
      report(
        findingAt(source, 'S0202', 'error', `${quoted(value)} is drawn as another key`, range, {
          notes: ['the ABC standard writes a key with `#` or `b`, and the engraver reads no other signs'],
          help: `write \`K:${value.replace('♯', '#').replace('♭', 'b')}\``,
        }),
      );
    } else if (key !== undefined && Math.abs(key.signature.fifths) > mostAccidentals) {
      const { fifths } = key.signature;
      report(
        findingAt(
          source,
          'S0201',
          'warning',
          `the key ${quoted(value)} would need ${String(Math.abs(fifths))} ${fifths > 0 ? 'sharps' : 'flats'}`,
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
      findingAt(source, 'S0203', 'error', `${quoted(value)} is no metre`, range, {
        help: 'write two numbers, `C`, `C|` or `none`, for example `M:3/4`',
      }),
    );
  } else if (field.letter === 'L' && readUnit(value) === undefined) {
    report(
      findingAt(source, 'S0204', 'error', `${quoted(value)} is no note length`, range, {
        help: 'write a fraction of a whole note, for example `L:1/8`',
      }),
    );
  } else if (field.letter === 'Q' && readTempo(value, one) === undefined) {
    report(
      findingAt(source, 'S0205', 'error', `${quoted(value)} is no tempo`, range, {
        help: 'write a note value and beats a minute, for example `Q:1/4=96` or `Q:"Slow" 1/4=60`',
      }),
    );
  }
}

/** Why a field is not followed, and what to write instead. */
function unfollowed({ letter, place, value }: Field): readonly [reason: string, help: string] | undefined {
  if (letter === 'm') return ['macros are not expanded', 'write the macro out in the music'];
  if (letter === '+') return ['this continuation is not read', 'write it into the line before'];
  if (letter === 's') return ['symbol lines are not read', 'write the symbols into the music'];
  if (letter === 'P' && place === 'header')
    return ['the order of parts is not followed', 'write the order with repeat signs and endings'];
  if ((letter === '%' || letter === 'I') && /^\s*MIDI\s+r?transpose\b/.test(value)) {
    return ['this transposition is not followed', 'write `transpose=` into the `V:` or `K:` field'];
  }
  return undefined;
}

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
  const [reason, help] = unfollowed(field) ?? [];
  if (reason !== undefined && help !== undefined)
    report(findingAt(source, 'S0109', 'warning', reason, field, { help }));
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
        notes: ['it is heard, but the engraver leaves it out or draws it into another voice'],
        help: `add \`${id}\` to the directive`,
      }),
    );
  }
}

const accidentalSigns: Readonly<Record<string, string>> = { '♯': '^', '♭': '_', '♮': '=' };

/** Accidentals as they are printed: the parser passes over them, and the note would sound without. */
function checkAccidentalSigns(source: SourceText, abc: AbcText, report: Report): void {
  for (const match of abc.music.matchAll(/"[^"\n]*"|![^!\n]*!|[♯♭♮]/gu)) {
    const sign = accidentalSigns[match[0]];
    if (sign === undefined) continue;
    const range = { start: match.index, end: match.index + 1 };
    report(
      findingAt(source, 'S0410', 'error', `\`${match[0]}\` is not read: the note stands without it`, range, {
        help: `write \`${sign}\` in front of the note, for example \`${sign}F\``,
      }),
    );
  }
}

/** Reports fields that say nothing readable, stand where they are lost, or disagree with each other. */
export function checkFields(
  source: SourceText,
  abc: AbcText,
  voices: readonly Voice[],
  report: Report,
): void {
  for (const field of abc.fields) {
    checkValue(source, field, report);
    checkPlace(source, field, report);
  }
  checkAccidentalSigns(source, abc, report);
  checkLayout(source, abc, voices, report);
}
