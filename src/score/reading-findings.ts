import type { Diagnostic, SourceText } from '../diagnostics/index.js';
import { findingAt, quoted, type Range } from './finding.js';
import { printFraction, type Fraction } from './fraction.js';
import type { Voice } from './model.js';

/** Findings that come up while the voices are read, note by note. */

const textOf = (source: SourceText, { start, end }: Range): string => quoted(source.text.slice(start, end));

export const danglingTie = (source: SourceText, head: Range): Diagnostic =>
  findingAt(source, 'S0401', 'warning', `the tie of ${textOf(source, head)} finds no second note`, head, {
    label: 'tied to nothing',
    notes: ['a tie joins two notes of the same pitch that follow each other in one voice'],
    help: 'take the `-` away, or write a slur `( )` where the pitch changes',
  });

export const strayTuplet = (source: SourceText, mark: Range): Diagnostic =>
  findingAt(source, 'S0402', 'error', `${textOf(source, mark)} is no tuplet`, mark, {
    help: 'write `(p:q:r`, p notes in the time of q for the next r notes, for example `(3:2:3`',
  });

export const microtone = (source: SourceText, range: Range): Diagnostic =>
  findingAt(source, 'S0403', 'error', `${textOf(source, range)} is altered by less than a semitone`, range, {
    notes: ['the note is read without its accidental'],
    help: 'write a whole sharp `^` or flat `_`: intervals smaller than a semitone cannot be analysed',
  });

export const impossibleLength = (source: SourceText, start: number, end: number): Diagnostic =>
  findingAt(
    source,
    'S0404',
    'error',
    `${textOf(source, { start, end })} has a length that no notation knows`,
    { start, end },
    {
      notes: ['it is read as one unit note length'],
      help: 'write a length between 1/1024 and 1000 whole notes',
    },
  );

export const noNoteValue = (source: SourceText, head: Range, length: Fraction): Diagnostic =>
  findingAt(
    source,
    'S0409',
    'warning',
    `no note is written ${printFraction(length)} of a whole note long`,
    head,
    {
      notes: ['it is heard as long as that, but drawn with another length'],
      help: 'write tied notes, or a tuplet',
    },
  );

export const lostNote = (source: SourceText, head: Range): Diagnostic =>
  findingAt(source, 'S0503', 'error', `the note ${textOf(source, head)} is lost`, head, {
    notes: ['the signs behind it, or a quotation mark in front of it, do not let it be read'],
    help: 'write a note as accidental, letter, octave, length and tie, in this order, and close every quotation',
  });

export const unreadableEnding = (source: SourceText, range: Range): Diagnostic =>
  findingAt(
    source,
    'S0405',
    'error',
    `the ending ${textOf(source, range)} names no pass from 1 to 99`,
    range,
    {
      notes: ['the bars of the ending are read as played on every pass'],
      help: 'write the passes as numbers, for example `[1`, `[2,3` or `[1-3`',
    },
  );

export const endlessRest = (source: SourceText, start: number, end: number): Diagnostic =>
  findingAt(
    source,
    'S0406',
    'error',
    `${textOf(source, { start, end })} rests beyond bar 5000`,
    { start, end },
    { notes: ['the rest is cut there'], help: 'check the number behind `Z`' },
  );

export const musicBeforeVoice = (source: SourceText, at: number, voice: Voice): Diagnostic =>
  findingAt(
    source,
    'S0208',
    'warning',
    `music stands before the first \`V:\` of the tune body`,
    { start: at, end: at + 1 },
    {
      notes: [`it is read as voice \`${voice.id}\``],
      help: `put \`[V:${voice.id}]\` in front of it`,
    },
  );
