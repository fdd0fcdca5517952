import type { Diagnostic, SourceText } from '../diagnostics/index.js';
import type { MusicElement } from './abc.js';
import type { AbcText } from './abc-text.js';
import { findingAt, quoted } from './finding.js';
import { voiceIdOf } from './voice-fields.js';

/** Longest score text that is read, in UTF-16 code units: some 3,000 bars of piano music. */
export const mostCharacters = 200_000;

/** Notes, rests and bar lines of all voices; ten times a long movement for piano. */
const mostElements = 60_000;

/** The parser's time grows with the square of these, and no music needs more. */
const longestRun = 400;
const longestInlineFields = 2000;
const mostOpenSlurs = 300;
const mostOpenGraces = 100;
const mostOverlays = 15;
const mostVoices = 64;

/** Signs of one kind: tabs and all other white space count as spaces, line ends do not. */
const kindAt = (text: string, at: number): string => {
  const sign = text.charAt(at);
  return sign !== '\n' && sign.trim() === '' && sign !== '' ? ' ' : sign;
};

/** Where more than so many signs of one kind in a row begin. */
function findRun(text: string, limit: number, isMeant: (kind: string, end: number) => boolean): number {
  let start = 0;
  for (let at = 1; at <= text.length; at++) {
    const kind = kindAt(text, start);
    if (kindAt(text, at) === kind) continue;
    if (at - start > limit && isMeant(kind, at)) return start;
    start = at;
  }
  return -1;
}

const signNames: Readonly<Record<string, string>> = { ' ': 'spaces', '\n': 'empty lines' };

function checkRuns(source: SourceText, text: string): Diagnostic | undefined {
  const start = findRun(text, longestRun, () => true);
  if (start < 0) return undefined;
  const sign = kindAt(text, start);
  return findingAt(
    source,
    'S0004',
    'error',
    `more than ${String(longestRun)} ${signNames[sign] ?? `\`${sign}\``} stand in a row`,
    { start, end: start + 1 },
    { help: 'take them out: they mean nothing' },
  );
}

/** Fields in brackets are blanks to the parser; those at the end of a line cost it no time. */
function checkInlineFields(source: SourceText, { parserText }: AbcText): Diagnostic | undefined {
  const start = findRun(
    parserText,
    longestInlineFields,
    (kind, end) => kind === ' ' && end < parserText.length && parserText[end] !== '\n',
  );
  if (start < 0) return undefined;
  return findingAt(
    source,
    'S0004',
    'error',
    `more than ${String(longestInlineFields)} characters without a note stand in this line`,
    { start, end: start + 1 },
    { help: 'write fields and remarks on lines of their own, and take out those that mean nothing' },
  );
}

/** What makes a text unfit for the parser before anything is taken apart. */
export function checkSize(source: SourceText): Diagnostic | undefined {
  const { text } = source;
  if (text.length <= mostCharacters) return checkRuns(source, text.trimEnd());
  return findingAt(
    source,
    'S0001',
    'error',
    `the score is too large: ${String(text.length)} characters`,
    { start: 0, end: 1 },
    {
      notes: [`at most ${String(mostCharacters)} characters are read`],
      help: 'split the score into movements',
    },
  );
}

function checkVoiceNames(source: SourceText, abc: AbcText): Diagnostic | undefined {
  const ids = new Set<string>();
  for (const field of abc.fields) {
    if (field.letter !== 'V') continue;
    const id = voiceIdOf(field);
    if (id in {}) {
      return findingAt(source, 'S0003', 'error', `${quoted(id)} cannot be the name of a voice`, field, {
        notes: ['the engraver keeps the word for itself'],
        help: 'give the voice another name, for example `1` or `RH`',
      });
    }
    ids.add(id);
    if (ids.size > mostVoices) {
      return findingAt(
        source,
        'S0002',
        'error',
        `the score has more than ${String(mostVoices)} voices`,
        field,
        {
          help: 'leave out the voices that the lesson does not speak of',
        },
      );
    }
  }
  return undefined;
}

function checkOpenSlurs(source: SourceText, abc: AbcText): Diagnostic | undefined {
  let open = 0;
  for (const match of abc.music.matchAll(/"[^"\n]*"|\((?!\d)|\)/g)) {
    if (match[0] === '(') open += 1;
    else if (match[0] === ')') open = Math.max(0, open - 1);
    if (open > mostOpenSlurs) {
      const range = { start: match.index, end: match.index + 1 };
      return findingAt(
        source,
        'S0007',
        'error',
        `more than ${String(mostOpenSlurs)} slurs are open here`,
        range,
        {
          help: 'close each slur with `)`',
        },
      );
    }
  }
  return undefined;
}

function checkOverlays(source: SourceText, abc: AbcText): Diagnostic | undefined {
  let count = 0;
  let before = 0;
  for (const at of abc.overlays) {
    count = abc.music.slice(before, at).includes('|') ? 1 : count + 1;
    before = at;
    if (count > mostOverlays) {
      return findingAt(
        source,
        'S0008',
        'error',
        `more than ${String(mostOverlays)} overlays lie over one bar`,
        { start: at, end: at + 1 },
        { help: 'write the parts as voices of their own' },
      );
    }
  }
  return undefined;
}

function checkOpenGraces(source: SourceText, abc: AbcText): Diagnostic | undefined {
  let open = 0;
  for (const line of abc.music.matchAll(/.+/g)) {
    const closed = line[0].lastIndexOf('}');
    for (let at = line[0].indexOf('{', closed + 1); at >= 0; at = line[0].indexOf('{', at + 1)) {
      open += 1;
      if (open <= mostOpenGraces) continue;
      const start = line.index + at;
      return findingAt(
        source,
        'S0009',
        'error',
        `more than ${String(mostOpenGraces)} groups of grace notes are never closed`,
        { start, end: start + 1 },
        { help: 'close each group with `}`' },
      );
    }
  }
  return undefined;
}

/** What makes the voices or the music code unfit for the parser. */
export const checkParts = (source: SourceText, abc: AbcText): Diagnostic | undefined =>
  checkVoiceNames(source, abc) ??
  checkInlineFields(source, abc) ??
  checkOpenSlurs(source, abc) ??
  checkOpenGraces(source, abc) ??
  checkOverlays(source, abc);

/** What makes the music too long to work with. */
export function checkCount(source: SourceText, elements: readonly MusicElement[]): Diagnostic | undefined {
  let count = 0;
  for (const element of elements) {
    count += element.kind === 'note' ? Math.max(1, element.ties.length) : 1;
    if (count <= mostElements) continue;
    return findingAt(
      source,
      'S0010',
      'error',
      `the score has more than ${String(mostElements)} notes, rests and bar lines`,
      element,
      { help: 'split the score into movements' },
    );
  }
  return undefined;
}
