import type { Diagnostic, Span } from '../diagnostics/index.js';
import type { Lesson } from '../lesson/index.js';
import { spokenTexts } from './spoken-texts.js';

/** Words that belong to one vocabulary only, and their counterparts in the other. Common practice. */
const pairs: readonly (readonly [american: string, british: string])[] = [
  ['quarter note', 'crotchet'],
  ['eighth note', 'quaver'],
  ['sixteenth note', 'semiquaver'],
  ['half note', 'minim'],
  ['whole note', 'semibreve'],
  ['half step', 'semitone'],
  ['whole step', 'tone'],
  ['leading tone', 'leading note'],
  ['measure', 'bar'],
  ['staff', 'stave'],
];
/** Used on both sides, so they decide nothing. */
const shared = new Set(['bar', 'tone', 'semitone', 'staff']);

interface Found {
  readonly word: string;
  readonly counterpart: string;
  readonly span: Span;
}

function found(lesson: Lesson, side: 0 | 1): readonly Found[] {
  return spokenTexts(lesson).flatMap(({ text, span }) =>
    pairs.flatMap(pair => {
      const word = pair[side];
      const match = shared.has(word)
        ? null
        : new RegExp(`\\b${word.replace(' ', '[ -]')}s?\\b`, 'iu').exec(text);
      if (match === null) return [];
      const at = span.source.text.slice(0, span.end).indexOf(match[0], span.start);
      const place = at < 0 ? span : { source: span.source, start: at, end: at + match[0].length };
      return [{ word: match[0], counterpart: pair[side === 0 ? 1 : 0], span: place }];
    }),
  );
}

/** Finding T0011 where a lesson mixes the American and the British names of things; it points at the rarer side. */
export function mixedVocabulary(lesson: Lesson): readonly Diagnostic[] {
  const [american, british] = [found(lesson, 0), found(lesson, 1)];
  const few = american.length < british.length ? american : british;
  const many = few === american ? british : american;
  const [first] = few;
  const [rest] = many;
  if (first === undefined || rest === undefined) return [];
  return [
    {
      code: 'T0011',
      severity: 'note',
      message: `\`${first.word}\` is ${few === american ? 'American' : 'British'}, the rest of the lesson is ${few === american ? 'British' : 'American'}`,
      span: first.span,
      related: [{ span: rest.span, message: `\`${rest.word}\` here` }],
      help: `one vocabulary is easier to follow: \`${first.counterpart}\``,
    },
  ];
}
