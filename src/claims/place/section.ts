import { choice, map, optional, quiet, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { count } from '../terms/number.js';
import { wholePiece } from './whole-piece.js';

/** A part of the piece that is named by what it is there, without its bars. */
export type Section =
  /** Counted from 1; the last one is `last`. */
  | { readonly kind: 'phrase'; readonly number: number | 'last'; readonly of?: LargeSection }
  | { readonly kind: 'antecedent' | 'consequent'; readonly of?: LargeSection }
  /** Phrases that begin otherwise than the first, between some that begin as it does. */
  | { readonly kind: 'middle' }
  /** So many bars from where the melody comes in. */
  | { readonly kind: 'opening'; readonly bars: number }
  /** The first bar of a section. */
  | { readonly kind: 'beginning'; readonly of: WholeSection }
  /** The last cadence: its chord of arrival and the one before. */
  | { readonly kind: 'close' }
  | LargeSection;

export type WholeSection = Exclude<Section, { readonly kind: 'beginning' }>;

/** A section that may have phrases of its own. */
export type LargeSection =
  | { readonly kind: 'half'; readonly half: 'first' | 'second'; readonly of?: PrintedSection }
  /** What stands between two repeat signs. */
  | { readonly kind: 'strain'; readonly number: number | 'last'; readonly of?: PrintedSection }
  | PrintedSection;

/** A section that the notation itself parts from the others. */
export type PrintedSection =
  /** A section over which the score writes its name. */
  | { readonly kind: 'titled'; readonly title: Title }
  /** A dance before its trio. */
  | { readonly kind: 'dance'; readonly dance: Dance }
  /** What is played before the uppermost line comes in. */
  | { readonly kind: 'introduction' };

export const titles = [
  'trio',
  'refrain',
  'chorus',
  'verse',
  'coda',
  'codetta',
  'bridge',
  'interlude',
] as const;
export type Title = (typeof titles)[number];
const dances = ['minuet', 'scherzo', 'march', 'waltz'] as const;
export type Dance = (typeof dances)[number];

const ordinals = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth'] as const;
const ordinal = wordsFor<number | 'last'>([
  ...ordinals.map((each, at) => [at + 1, each] as const),
  [1, 'opening'],
  ['last', 'last', 'final', 'closing'],
]);
const the = word('the');
const of = word('of', 'in');

const printedSection: Parser<PrintedSection> = map(
  sequence(
    the,
    choice(
      wordsFor<PrintedSection>(titles.map(title => [{ kind: 'titled', title }, title] as const)),
      wordsFor<PrintedSection>(dances.map(dance => [{ kind: 'dance', dance }, dance] as const)),
      map(
        sequence(
          quiet(optional(word('piano', 'instrumental', 'opening'))),
          word('introduction', 'intro', 'prelude'),
        ),
        (): PrintedSection => ({ kind: 'introduction' }),
      ),
    ),
  ),
  ([, section]) => section,
);

const ofTheWhole = quiet(optional(sequence(of, the, wholePiece)));
const ofPiece = map(sequence(of, the, wholePiece), () => undefined);
/** `of the trio`; of the piece, where it says no more. */
const ofPrinted: Parser<{ readonly of?: PrintedSection }> = map(
  optional(
    choice(
      map(sequence(of, printedSection), ([, section]) => section),
      quiet(ofPiece),
    ),
  ),
  section => (section === undefined ? {} : { of: section }),
);

const largeSection: Parser<LargeSection> = rule('LargeSection', () =>
  choice<LargeSection>(
    printedSection,
    map(
      sequence(
        the,
        wordsFor<'first' | 'second'>([
          ['first', 'first half'],
          ['second', 'second half'],
        ]),
        ofPrinted,
      ),
      ([, half, host]): LargeSection => ({ kind: 'half', half, ...host }),
    ),
    map(
      sequence(the, ordinal, word('section', 'strain', 'reprise', 'part'), ofPrinted),
      ([, number, , host]): LargeSection => ({ kind: 'strain', number, ...host }),
    ),
  ),
);

const ofLarge: Parser<{ readonly of?: LargeSection }> = map(
  optional(
    choice(
      map(sequence(of, largeSection), ([, section]) => section),
      quiet(ofPiece),
    ),
  ),
  section => (section === undefined ? {} : { of: section }),
);

const bars = word('bar', 'bars', 'measure', 'measures');
/** `the first bar of the melody`, `the opening 2 bars of the melody`. */
const opening: Parser<Section> = map(
  sequence(
    the,
    word('opening', 'first'),
    optional(count),
    bars,
    word('of the melody', 'of the tune', 'of the theme'),
  ),
  ([, , number]): Section => ({ kind: 'opening', bars: number ?? 1 }),
);

/** `the second phrase`, `the consequent of the trio`, `the first half of the minuet`, `the introduction`. */
export const section: Parser<Section> = rule(
  'Section',
  () =>
    choice<Section>(
      wholeSection,
      opening,
      map(sequence(word('the beginning of', 'the start of'), wholeSection), ([, of_]): Section => ({
        kind: 'beginning',
        of: of_,
      })),
      map(sequence(word('the close'), ofTheWhole), (): Section => ({ kind: 'close' })),
    ),
  'a section such as `the second phrase` or `the trio`',
);

const wholeSection: Parser<WholeSection> = rule('WholeSection', () =>
  choice<WholeSection>(
    largeSection,
    map(
      sequence(
        the,
        ordinal,
        quiet(optional(word('vocal', 'melodic', 'sung', 'four-bar', 'four-measure', '4-bar', '4-measure'))),
        word('phrase'),
        ofLarge,
      ),
      ([, number, , , host]): WholeSection => ({ kind: 'phrase', number, ...host }),
    ),
    map(
      sequence(
        the,
        wordsFor<'antecedent' | 'consequent'>([
          ['antecedent', 'antecedent'],
          ['consequent', 'consequent'],
        ]),
        quiet(optional(word('phrase'))),
        ofLarge,
      ),
      ([, kind, , host]): WholeSection => ({ kind, ...host }),
    ),
    map(
      sequence(
        the,
        word(
          'middle section',
          'middle part',
          'contrasting section',
          'contrasting middle section',
          'B section',
        ),
      ),
      (): WholeSection => ({ kind: 'middle' }),
    ),
  ),
);

const printOrdinal = (number: number | 'last'): string =>
  number === 'last' ? 'last' : (ordinals[number - 1] ?? String(number));

/** A section in the form that is read again. */
export function printSection(named: Section): string {
  const host = 'of' in named && named.of !== undefined ? ` of ${printSection(named.of)}` : '';
  switch (named.kind) {
    case 'phrase':
      return `the ${printOrdinal(named.number)} phrase${host}`;
    case 'strain':
      return `the ${printOrdinal(named.number)} section${host}`;
    case 'half':
      return `the ${named.half} half${host === '' ? ' of the piece' : host}`;
    case 'antecedent':
    case 'consequent':
      return `the ${named.kind}${host}`;
    case 'middle':
      return 'the middle section';
    case 'opening':
      return named.bars === 1
        ? 'the opening bar of the melody'
        : `the opening ${String(named.bars)} bars of the melody`;
    case 'beginning':
      return `the beginning${host}`;
    case 'close':
      return 'the close';
    case 'titled':
      return `the ${named.title}`;
    case 'dance':
      return `the ${named.dance}`;
    case 'introduction':
      return 'the introduction';
  }
}
