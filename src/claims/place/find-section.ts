import type { Bar } from '../../score/index.js';
import { compare } from '../../score/index.js';
import type { ClaimContext, Range } from '../model.js';
import { cadencesIn, closesOf, finality, stopOnDominant } from '../families/closes.js';
import type { Close } from '../families/closes.js';
import { likeness } from '../families/likeness.js';
import { liesIn } from '../segments.js';
import { endOf } from './beats.js';
import { printSection, titles } from './section.js';
import type { Section, Title } from './section.js';

/** Bars of a section, one behind the other, or why they cannot be told. */
type Found = readonly Bar[] | { readonly problem: string };

const isFound = (found: Found): found is readonly Bar[] => !('problem' in found);

const fullBars = ({ analysis }: ClaimContext): readonly Bar[] =>
  analysis.score.bars.filter(({ number }) => number > 0);

/** A phrase has so many bars as a rule (common practice); shorter ones count only where all are as long as each other. */
const usualBars = 4;

/** The bars before the one with which the piece proper opens; none where the uppermost line is there from the beginning. */
const introduction = (context: ClaimContext): readonly Bar[] =>
  fullBars(context).filter(({ index }) => index < context.analysis.opens);

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

/** The bars under a key signature other than the first one, where it changes for one stretch only. */
function underOtherSignature(context: ClaimContext): readonly Bar[] {
  const bars = fullBars(context);
  const others = bars.filter(({ key }) => key.fifths !== bars[0]?.key.fifths);
  const [first, last] = [others[0], others.at(-1)];
  return first !== undefined && last !== undefined && last.index - first.index === others.length - 1
    ? others
    : [];
}

/** Where the score writes `Trio`, else where it changes its key signature (common practice of dances). */
function trio(context: ClaimContext): readonly Bar[] {
  const written = titledBars('trio', context);
  return written.length > 0 ? written : underOtherSignature(context);
}

/** What repeat signs part the bars into: more than one part where one stands within them. */
function strainsOf(bars: readonly Bar[], context: ClaimContext): readonly (readonly Bar[])[] {
  const { playingOrder } = context.analysis.score;
  const goesBackAfter = (bar: Bar): boolean =>
    playingOrder.some(
      (played, at) => played.bar === bar.index && (playingOrder[at + 1]?.bar ?? bar.index + 1) <= bar.index,
    );
  const borders = bars.flatMap((bar, at) => {
    if (!goesBackAfter(bar)) return [];
    // Its other endings belong to a section; they have the same number.
    const next = bars.findIndex((other, place) => place > at && other.number !== bar.number);
    return next < 0 ? [] : [next];
  });
  // A repeat that begins within the bars begins a part as well.
  const starts = bars.flatMap((bar, at) =>
    at > 0 &&
    playingOrder.some(({ bar: played }, order) => {
      const before = playingOrder[order - 1]?.bar;
      return played === bar.index && before !== undefined && before >= bar.index && bar.ending === undefined;
    })
      ? [at]
      : [],
  );
  const edges = [...new Set([0, ...borders, ...starts, bars.length])].sort((a, b) => a - b);
  return edges.slice(1).map((end, at) => bars.slice(edges[at], end));
}

/** The two halves: parted by the only repeat sign within, else an even number of bars in its middle. */
function halvesOf(bars: readonly Bar[], context: ClaimContext): readonly (readonly Bar[])[] {
  const strains = strainsOf(bars, context);
  if (strains.length === 2) return strains;
  const middle = bars.length / 2;
  return strains.length > 1 || !Number.isInteger(middle) ? [] : [bars.slice(0, middle), bars.slice(middle)];
}

/** How a phrase closes; V stops where the next one begins as the first. */
function closeOf(bars: readonly Bar[], opens: Bar | undefined, context: ClaimContext): Close | undefined {
  const last = bars.at(-1);
  const [...closes] = closesOf(last, context);
  const own = closes.at(-1);
  if (own !== undefined || last === undefined) return own;
  const next = context.analysis.score.bars[last.index + 1];
  return opens !== undefined && next !== undefined && likeness(opens, next, context) === 'same'
    ? stopOnDominant(last, context)
    : undefined;
}

interface Phrases {
  readonly phrases: readonly (readonly Bar[])[];
  /** Whether they fill the bars. */
  readonly isWhole: boolean;
}

/** From one listed cadence to the next, where that parts the bars plainly. */
function byCadences(bars: readonly Bar[], context: ClaimContext): Phrases | undefined {
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
  return isPlain ? { phrases, isWhole: true } : undefined;
}

/** Four bars each as long as something closes in every fourth one, listed or not. */
function byFours(bars: readonly Bar[], context: ClaimContext): Phrases {
  const phrases: (readonly Bar[])[] = [];
  for (let at = 0; at + usualBars <= bars.length; at += usualBars) {
    const own = bars.slice(at, at + usualBars);
    if (closeOf(own, bars[0], context) === undefined) break;
    phrases.push(own);
  }
  return { phrases, isWhole: phrases.length * usualBars === bars.length };
}

/** Two phrases each as one, as long as no listed cadence and no new beginning parts them. */
function inPairs(phrases: readonly (readonly Bar[])[], context: ClaimContext): readonly (readonly Bar[])[] {
  const pairs: (readonly Bar[])[] = [];
  for (let at = 0; at + 1 < phrases.length; at += 2) {
    const [one = [], other = []] = [phrases[at], phrases[at + 1]];
    const [opens, last, next] = [one[0], one.at(-1), other[0]];
    const isParted =
      opens === undefined ||
      last === undefined ||
      next === undefined ||
      cadencesIn({ start: last.start, end: endOf(last) }, context).length > 0 ||
      likeness(opens, next, context) === 'same';
    if (isParted) break;
    pairs.push([...one, ...other]);
  }
  return pairs;
}

/** The phrases of some bars, one behind the other: each ends with a cadence. */
function phrasesOf(bars: readonly Bar[], context: ClaimContext): Phrases {
  const intro = introduction(context);
  const own = bars.filter(bar => !intro.includes(bar));
  const { phrases, isWhole } = byCadences(own, context) ?? byFours(own, context);
  switch (context.counting) {
    case 'shorter phrases':
      return phrases.every(({ length }) => length % 2 === 0 && length >= 2 * usualBars)
        ? {
            phrases: phrases.flatMap(each => [each.slice(0, each.length / 2), each.slice(each.length / 2)]),
            isWhole,
          }
        : { phrases: [], isWhole: false };
    case 'longer phrases':
      return { phrases: inPairs(phrases, context), isWhole };
    default:
      return { phrases, isWhole };
  }
}

const unclear = (named: Section): { readonly problem: string } => ({
  problem: `where ${printSection(named)} begins and ends can be heard in more than one way; name its bars`,
});

/** The phrases or the sections of some bars; a problem where they cannot be told. */
export function partsOf(
  kind: 'phrase' | 'section',
  range: Range,
  context: ClaimContext,
): readonly (readonly Bar[])[] | { readonly problem: string } {
  const bars = fullBars(context).filter(bar => liesIn(bar.start, range));
  if (kind === 'section') {
    const strains = strainsOf(bars, context);
    return strains.length > 1
      ? strains
      : { problem: 'no repeat sign parts sections from each other; name their bars' };
  }
  const { phrases, isWhole } = phrasesOf(bars, context);
  return isWhole && phrases.length > 0
    ? phrases
    : { problem: 'where each phrase begins and ends can be heard in more than one way; name their bars' };
}

/** The first two phrases, where the second closes with an authentic cadence and more firmly than the first (Open Music Theory, Period). */
function period(bars: readonly Bar[], context: ClaimContext): readonly (readonly Bar[])[] {
  const [first, second] = phrasesOf(bars, context).phrases;
  if (first === undefined || second === undefined) return [];
  const [one, other] = [first, second].map(phrase => closeOf(phrase, first[0], context));
  const isAnswered =
    one !== undefined &&
    other?.kind.endsWith('authentic') === true &&
    one.kind !== 'deceptive' &&
    finality(one) < finality(other) &&
    Math.max(first.length, second.length) <= 2 * Math.min(first.length, second.length);
  return isAnswered ? [first, second] : [];
}

/** The phrases that begin otherwise than the first, up to the one that begins as it does. */
function middleOf(context: ClaimContext): readonly Bar[] {
  const { phrases } = phrasesOf(fullBars(context), context);
  const opens = phrases[0]?.[0];
  if (opens === undefined) return [];
  const isAlike = phrases.map(
    ([begins]) => begins !== undefined && ['same', 'transposed'].includes(likeness(opens, begins, context)),
  );
  const first = isAlike.indexOf(false);
  const back = isAlike.indexOf(true, Math.max(first, 0));
  return first < 0 || back < first ? [] : phrases.slice(first, back).flat();
}

/** The bar in which the last cadence arrives, with that of the chord before. */
function closing(context: ClaimContext): readonly Bar[] {
  const { cadences, segments } = context.analysis;
  const last = cadences.findLast(({ kind }) => kind !== 'evaded');
  if (last === undefined) return [];
  const before = segments.findLast(({ end }) => compare(end, last.onset) <= 0);
  const isOf = (bar: Bar): boolean =>
    liesIn(last.onset, { start: bar.start, end: endOf(bar) }) ||
    (before !== undefined && liesIn(before.start, { start: bar.start, end: endOf(bar) }));
  return context.analysis.score.bars.filter(isOf);
}

/**
 * The bars of a section. The problem of one that the notation and the cadences do not part plainly says what to do.
 * @see ClaimContext.counting for how else it may be counted
 */
export function barsOfSection(named: Section, context: ClaimContext): Found {
  const host = 'of' in named && named.of !== undefined ? barsOfSection(named.of, context) : fullBars(context);
  if (!isFound(host)) return host;
  const orProblem = (bars: readonly Bar[] | undefined, problem: string): Found =>
    bars === undefined || bars.length === 0 ? { problem } : bars;
  switch (named.kind) {
    case 'introduction':
      return orProblem(
        introduction(context),
        'the uppermost line is there from the beginning, so that nothing in the notation marks an introduction; name its bars',
      );
    case 'opening': {
      const intro = introduction(context);
      return host.filter(bar => !intro.includes(bar)).slice(0, named.bars);
    }
    case 'beginning':
      return host.slice(0, 1);
    case 'titled':
      return orProblem(
        named.title === 'trio' ? trio(context) : titledBars(named.title, context),
        `the score writes \`${named.title}\` over no bar, or over several; name its bars`,
      );
    case 'dance': {
      const [first] = context.counting === 'dance with trio' ? [] : trio(context);
      return first === undefined ? host : host.filter(bar => bar.index < first.index);
    }
    case 'half': {
      const whole = halvesOf(host, context);
      // Of a dance with its trio the halves are those of the dance.
      const halves =
        whole.length > 0 || named.of !== undefined
          ? whole
          : halvesOf(
              host.filter(bar => bar.index < (trio(context)[0]?.index ?? 0)),
              context,
            );
      return orProblem(
        halves[named.half === 'first' ? 0 : 1],
        `nothing in the notation tells where ${printSection(named)} begins and ends; name its bars`,
      );
    }
    case 'strain': {
      const strains = strainsOf(host, context);
      const own = strains.length < 2 ? halvesOf(host, context) : strains;
      return orProblem(
        named.number === 'last' ? own.at(-1) : own[named.number - 1],
        `nothing in the notation tells where ${printSection(named)} begins and ends; name its bars`,
      );
    }
    case 'phrase': {
      const { phrases, isWhole } = phrasesOf(host, context);
      const own = named.number === 'last' ? (isWhole ? phrases.at(-1) : []) : phrases[named.number - 1];
      return own === undefined || own.length === 0 ? unclear(named) : own;
    }
    case 'antecedent':
    case 'consequent':
      return orProblem(
        period(host, context)[named.kind === 'antecedent' ? 0 : 1],
        `the ${named.of === undefined ? 'piece' : printSection(named.of).replace(/^the /u, '')} does not open with a period that is plain enough to say which bars are ${printSection(named)}; name its bars`,
      );
    case 'close':
      return orProblem(closing(context), 'no cadence is heard at the end; name its bars');
    case 'middle':
      return orProblem(
        middleOf(context),
        'no phrases in the middle begin otherwise than the ones around them, as far as the cadences part them; name the bars',
      );
  }
}
