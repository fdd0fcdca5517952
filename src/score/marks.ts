import type { NoteElement } from './abc.js';
import { unescapeText } from './abc-text.js';
import type { MarkKind } from './model.js';
import type { WrittenNote } from './note-heads.js';

export interface WrittenMark {
  readonly kind: MarkKind;
  readonly text: string;
}

const dynamic = /^(p{1,4}|m[pf]|f{1,4}|sfz|(crescendo|diminuendo|[<>])[()])$/;
const kinds: Readonly<Record<string, MarkKind>> = {
  fermata: 'fermata',
  invertedfermata: 'fermata',
  staccato: 'staccato',
  accent: 'accent',
  breath: 'breath',
};
/** Ornaments by their names in ABC 2.1, section 4.14, and the parser's. A trill that lasts begins with `trill(`. */
const ornaments: Readonly<Record<string, string>> = {
  trill: 'trill',
  'trill(': 'trill',
  mordent: 'mordent',
  lowermordent: 'mordent',
  uppermordent: 'upper mordent',
  pralltriller: 'upper mordent',
  turn: 'turn',
  turnx: 'turn',
  invertedturn: 'inverted turn',
  invertedturnx: 'inverted turn',
  roll: 'roll',
  irishroll: 'roll',
};
/** Decorations that say where to go on; the short names are those of ABC 2.1, section 4.14, the long ones the parser's. */
const directions: Readonly<Record<string, string>> = {
  segno: 'segno',
  coda: 'coda',
  dacoda: 'to coda',
  fine: 'fine',
  dacapo: 'D.C.',
  'D.C.': 'D.C.',
  'D.S.': 'D.S.',
  'D.C.alfine': 'D.C. al fine',
  'D.C.alcoda': 'D.C. al coda',
  'D.S.alfine': 'D.S. al fine',
  'D.S.alcoda': 'D.S. al coda',
};

/** The marks among decorations that the parser knows and those that only the source shows. */
function marksOfDecorations(parsed: readonly string[], written: readonly string[]): readonly WrittenMark[] {
  return [...new Set([...parsed, ...written.filter(name => Object.hasOwn(directions, name))])].flatMap(
    (name): WrittenMark[] => {
      const direction = directions[name];
      if (Object.hasOwn(directions, name) && direction !== undefined)
        return [{ kind: 'direction', text: direction }];
      if (dynamic.test(name)) return [{ kind: 'dynamic', text: name }];
      const ornament = Object.hasOwn(ornaments, name) ? ornaments[name] : undefined;
      if (ornament !== undefined) return [{ kind: 'ornament', text: ornament }];
      const kind = Object.hasOwn(kinds, name) ? kinds[name] : undefined;
      return kind === undefined ? [] : [{ kind, text: name }];
    },
  );
}

/** Quoted text is a chord symbol unless its first character says where to print it (ABC 2.1, sections 4.18 and 4.19). */
function markOfQuote(quote: string): WrittenMark {
  const text = unescapeText(quote);
  return /^[\^_<>@]/.test(text)
    ? { kind: 'annotation', text: text.slice(1) }
    : { kind: 'chord symbol', text };
}

/** Everything that is written at a bar line; a chord symbol belongs to a note. */
export const marksOfBarLine = (parsed: readonly string[], written: WrittenNote): readonly WrittenMark[] => [
  ...written.quotes.map(markOfQuote).filter(({ kind }) => kind === 'annotation'),
  ...marksOfDecorations(parsed, written.decorations),
];

/** Everything that is written at a note besides the note. */
export function marksOfNote(element: NoteElement, written: WrittenNote): readonly WrittenMark[] {
  return [
    ...written.quotes.map(markOfQuote),
    ...marksOfDecorations(element.decorations, written.decorations),
    ...element.lyrics.filter(text => text !== '').map((text): WrittenMark => ({ kind: 'lyric', text })),
    ...Array.from({ length: element.slursStarted }, (): WrittenMark => ({ kind: 'slur start', text: '(' })),
    ...Array.from({ length: element.slursEnded }, (): WrittenMark => ({ kind: 'slur end', text: ')' })),
  ];
}
