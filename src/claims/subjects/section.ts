import { formFamily } from '../families/form.js';
import type { Bar } from '../../score/index.js';
import type { Finding, Predicate, Resolution, Subject } from '../claim.js';
import { choice, map, optional, quiet, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { endOf } from '../place/beats.js';
import { printPlace, wholePiece } from '../place/place-name.js';
import { liesIn } from '../segments.js';
import { span } from './span.js';
import type { PlaceSubject, Span } from './span.js';

/** A part of the piece that is named by what it is there, without its bars. */
export type Section =
  /** Counted from 1; the last one is `last`. */
  | { readonly kind: 'phrase'; readonly number: number | 'last' }
  | { readonly kind: 'half'; readonly half: 'first' | 'second' }
  | { readonly kind: 'antecedent' | 'consequent' }
  /** A section over which the score writes its name. */
  | { readonly kind: 'titled'; readonly title: Title };

const titles = ['trio', 'refrain', 'chorus', 'verse'] as const;
type Title = (typeof titles)[number];

const ordinals = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth'] as const;
const ofThePiece = quiet(optional(sequence(word('of the', 'in the'), wholePiece)));

const phraseName: Parser<Section> = choice<Section>(
  map(
    sequence(
      word('the'),
      wordsFor<number | 'last'>([
        ...ordinals.map((each, at) => [at + 1, each] as const),
        [1, 'opening'],
        ['last', 'last', 'final', 'closing'],
      ]),
      word('phrase'),
      ofThePiece,
    ),
    ([, number]): Section => ({ kind: 'phrase', number }),
  ),
  map(
    sequence(
      word('the'),
      wordsFor<'antecedent' | 'consequent'>([
        ['antecedent', 'antecedent'],
        ['consequent', 'consequent'],
      ]),
      quiet(optional(word('phrase'))),
    ),
    ([, kind]): Section => ({ kind }),
  ),
);
const titledName: Parser<Section> = map(
  sequence(word('the'), wordsFor<Title>(titles.map(title => [title, title] as const))),
  ([, title]): Section => ({ kind: 'titled', title }),
);
const halfName: Parser<Section> = map(
  sequence(
    word('the'),
    wordsFor<'first' | 'second'>([
      ['first', 'first half'],
      ['second', 'second half'],
    ]),
    ofThePiece,
  ),
  ([, half]): Section => ({ kind: 'half', half }),
);

function printSection(section: Section): string {
  switch (section.kind) {
    case 'phrase':
      return `the ${section.number === 'last' ? 'last' : (ordinals[section.number - 1] ?? String(section.number))} phrase`;
    case 'half':
      return `the ${section.half} half of the piece`;
    case 'antecedent':
    case 'consequent':
      return `the ${section.kind}`;
    case 'titled':
      return `the ${section.title}`;
  }
}

const passage = (bars: readonly (Bar | undefined)[]): PlaceSubject | undefined => {
  const [first, last] = [bars[0], bars.at(-1)];
  return first === undefined || last === undefined
    ? undefined
    : span({ kind: 'bars', first: first.label, last: last.label });
};

const fullBars = ({ analysis }: ClaimContext): readonly Bar[] =>
  analysis.score.bars.filter(({ number }) => number > 0);

/** Shorter ones count only where all are as long as each other. */
const usualBars = 4;

/**
 * The phrases of the piece as bars, one behind the other: each ends with a cadence of the analysis. None where they do not fill the piece, or
 * where one is so short that a cadence may be heard within a phrase.
 */
function phrasesOf(context: ClaimContext): readonly (readonly Bar[])[] {
  const bars = fullBars(context);
  const { cadences } = context.analysis;
  const closes = bars.flatMap((bar, at) =>
    cadences.some(
      ({ kind, onset }) => kind !== 'evaded' && liesIn(onset, { start: bar.start, end: endOf(bar) }),
    )
      ? [at + 1]
      : [],
  );
  const phrases = closes.map((end, at) => bars.slice(closes[at - 1] ?? 0, end));
  const [first] = phrases;
  const isPlain =
    closes.at(-1) === bars.length &&
    phrases.every(({ length }) => length >= usualBars || length === first?.length);
  return isPlain ? phrases : [];
}

/** The bar with which the second half begins: behind the repeat sign that parts the piece, else in the middle of an even number of bars. */
function middleOf(context: ClaimContext): number | undefined {
  const bars = fullBars(context);
  const { playingOrder } = context.analysis.score;
  const goesBackAfter = (bar: Bar): boolean =>
    playingOrder.some(
      (played, at) => played.bar === bar.index && (playingOrder[at + 1]?.bar ?? bar.index + 1) <= bar.index,
    );
  const parted = bars.flatMap((bar, at) => (goesBackAfter(bar) ? [at + 1] : []));
  const inside = parted
    // Its other endings belong to a section; they have the same number.
    .map(at => bars.findIndex((bar, place) => place >= at && bar.number !== bars[at - 1]?.number))
    .filter((at, place, all) => at > 0 && all.indexOf(at) === place);
  if (parted.length > 0) return inside.length === 1 ? inside[0] : undefined;
  return bars.length % 2 === 0 ? bars.length / 2 : undefined;
}

/** From the bar over which the score writes the title to the next title, or to the end; none where it is written more than once. */
function titledBars(title: Title, context: ClaimContext): readonly Bar[] {
  const bars = fullBars(context);
  const starts = context.analysis.score.marks.flatMap(({ kind, text, onset }) => {
    const written = titles.find(each => new RegExp(`^${each}\\b`, 'iu').test(text.trim()));
    const bar = bars.findIndex(each => liesIn(onset, { start: each.start, end: endOf(each) }));
    return kind !== 'annotation' || written === undefined || bar < 0 ? [] : [{ written, bar }];
  });
  const own = starts.filter(({ written }) => written === title);
  const [first] = own;
  if (first === undefined || own.some(({ bar }) => bar !== first.bar)) return [];
  const ends = starts.map(({ bar }) => bar).filter(bar => bar > first.bar);
  return bars.slice(first.bar, ends.length === 0 ? undefined : Math.min(...ends));
}

type Found = PlaceSubject | { readonly problem: string };

function find(section: Section, context: ClaimContext): Found {
  const named = printSection(section);
  switch (section.kind) {
    case 'half': {
      const middle = middleOf(context);
      const bars = fullBars(context);
      const half =
        middle === undefined
          ? undefined
          : passage(section.half === 'first' ? bars.slice(0, middle) : bars.slice(middle));
      return (
        half ?? { problem: `nothing in the notation tells where ${named} begins and ends; name its bars` }
      );
    }
    case 'titled':
      return (
        passage(titledBars(section.title, context)) ?? {
          problem: `the score writes \`${section.title}\` over no bar, or over several; name its bars`,
        }
      );
    case 'phrase': {
      const phrases = phrasesOf(context);
      return (
        passage((section.number === 'last' ? phrases.at(-1) : phrases[section.number - 1]) ?? []) ?? {
          problem: `where ${named} begins and ends can be heard in more than one way; name its bars`,
        }
      );
    }
    case 'antecedent':
    case 'consequent': {
      const [first = [], second = []] = phrasesOf(context);
      const both = passage([...first, ...second])?.resolve(context);
      const isPeriod =
        both?.kind === 'found' &&
        second.length > 0 &&
        formFamily.make({ kind: 'period' }).check(both.subject, context).verdict === 'holds';
      return (
        (isPeriod ? passage(section.kind === 'antecedent' ? first : second) : undefined) ?? {
          problem: `the piece does not open with a period that is plain enough to say which bars are ${named}; name its bars`,
        }
      );
    }
  }
}

const sectionSubject = (section: Section): Subject<Span> => ({
  content: section,
  plural: false,
  print: () => printSection(section),
  resolve: (context): Resolution<Span> => {
    const found = find(section, context);
    if ('problem' in found)
      return {
        kind: 'none',
        finding: { verdict: 'undecided', code: 'C0009', reason: found.problem, evidence: [] },
      };
    const resolved = found.resolve(context);
    return resolved.kind === 'found'
      ? {
          kind: 'found',
          subject: { ...resolved.subject, name: `${printSection(section)} (${resolved.subject.name})` },
        }
      : resolved;
  },
  neighbours: () => [],
});

/** `the second half of the piece`. */
export const namedHalf: Parser<Subject<Span>> = map(halfName, sectionSubject);
/** `the trio`, where the score names it. */
export const titledSection: Parser<Subject<Span>> = map(titledName, sectionSubject);
/** `the first phrase`, `the consequent`. */
export const namedPhrase: Parser<Subject<Span>> = map(phraseName, sectionSubject);

/** What is said of a phrase that is only counted: where it is not so, another count may be meant. */
export const saidOfPhrase = (of: Predicate<Span>): Predicate<Span> => ({
  ...of,
  check: (span, context): Finding<Span> => {
    const finding = of.check(span, context);
    const bars = printPlace(span.place);
    return finding.verdict === 'fails'
      ? {
          ...finding,
          verdict: 'undecided',
          code: 'C0009',
          reason: `${finding.reason}${finding.reason.endsWith(bars) ? '' : `; it is ${bars}`}, counted by its cadences: name the bars where others are meant`,
        }
      : finding;
  },
});
