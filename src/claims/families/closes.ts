import { judgeCadence } from '../../harmony/index.js';
import type { Cadence } from '../../harmony/index.js';
import { greatest, isBefore } from '../../score/index.js';
import type { Bar } from '../../score/index.js';
import type { ClaimContext, Range } from '../model.js';
import { endOf } from '../place/beats.js';
import { liesIn, segmentsIn } from '../segments.js';
import { harmoniesOf } from '../subjects/harmonies.js';
import { lineNotes } from '../subjects/line-notes.js';
import { soundingIn } from '../subjects/sounding.js';
import { cadenceHeardIn } from './heard-cadence.js';
import { isSupported } from './judged.js';
import { likeness } from './likeness.js';

/** A phrase has so many bars as a rule (common practice): where as many lie before a close and behind it they are two. */
export const barsOfPhrase = 4;

/** A cadence that ends something, or could: the analysis lists fewer than can be claimed. */
export type Close = Pick<Cadence, 'kind' | 'onset' | 'strength'>;

/** How final a cadence is: a half cadence leaves more open than an imperfect one, a perfect one closes. */
export const finality = ({ kind }: Close): number =>
  ({ evaded: 0, deceptive: 0, half: 1, plagal: 2, 'imperfect authentic': 2, 'perfect authentic': 3 })[kind];

export const cadencesIn = (range: Range, context: ClaimContext): readonly Cadence[] =>
  context.analysis.cadences.filter(each => liesIn(each.onset, range));

/** The listed cadences that arrive in a bar and end something: an evaded one ends nothing, the line is led on. */
const listedIn = (bar: Bar, context: ClaimContext): readonly Cadence[] =>
  cadencesIn({ start: bar.start, end: endOf(bar) }, context).filter(({ kind }) => kind !== 'evaded');

/** Whether the notation parts what comes before a bar from it: a fermata or a breath, or a rest in all voices. */
function isParted(before: Bar, { analysis }: ClaimContext): boolean {
  const { score } = analysis;
  const within = { start: before.start, end: endOf(before) };
  const marked = score.marks.some(
    ({ kind, onset }) => (kind === 'fermata' || kind === 'breath') && liesIn(onset, within),
  );
  const moments = score.rests.filter(({ onset }) => liesIn(onset, within)).map(({ onset }) => onset);
  return marked || moments.some(moment => soundingIn(score, { start: moment, end: moment }).length === 0);
}

/**
 * What can be claimed to close in a bar where no cadence is listed: of V and a stronger close behind it the list has the stronger alone. After a
 * close and a rest a phrase begins, so that V and I over that bar line are none.
 */
function heardClose(bar: Bar, context: ClaimContext): Close | undefined {
  const range = { start: bar.start, end: endOf(bar) };
  const before = context.analysis.score.bars[bar.index - 1];
  if (before !== undefined && isParted(before, context) && listedIn(before, context).length > 0)
    return undefined;
  const last = segmentsIn(context.analysis, range).at(-1);
  const heard = last === undefined ? undefined : cadenceHeardIn(range, last.key, context);
  return last === undefined || heard === undefined
    ? undefined
    : { kind: heard.kind, onset: greatest(last.start, bar.start), strength: 0 };
}

/** The chord of a cadence may be held, or struck again, into the bar after it, which still belongs to the close. */
function heldInto(bar: Bar, context: ClaimContext): Close | undefined {
  const { segments } = context.analysis;
  const [harmony] = harmoniesOf(segments).filter(
    each => isBefore(each.start, bar.start) && !isBefore(each.end, endOf(bar)),
  );
  return harmony === undefined
    ? undefined
    : context.analysis.cadences.find(
        each => each.kind !== 'evaded' && liesIn(each.onset, { start: harmony.start, end: bar.start }),
      );
}

/** The cadences that arrive in a bar and end something, listed or not. */
export function closesOf(last: Bar | undefined, context: ClaimContext): readonly Close[] {
  if (last === undefined) return [];
  const listed = listedIn(last, context);
  const heard = listed.length > 0 ? undefined : (heardClose(last, context) ?? heldInto(last, context));
  return heard === undefined ? listed : [heard];
}

/** V at the end of a bar as the half cadence that it is where the next bar begins as the phrase did, whatever V could lead on to. */
export function stopOnDominant(bar: Bar, context: ClaimContext): Close | undefined {
  const range = { start: bar.start, end: endOf(bar) };
  const last = segmentsIn(context.analysis, range).at(-1);
  if (last === undefined) return undefined;
  const judgement = judgeCadence(context.analysis, { ...range, kind: 'half', key: last.key });
  return isSupported(judgement)
    ? { kind: 'half', onset: greatest(last.start, bar.start), strength: 0 }
    : undefined;
}

/** Bars with a fermata where several mark the ends of phrases (common practice in chorales); none where they do not: a single one, or the last, says nothing. */
export function barsWithFermata({ analysis }: ClaimContext): readonly Bar[] {
  const { bars, marks } = analysis.score;
  const held = bars.filter(bar =>
    marks.some(
      ({ kind, onset }) => kind === 'fermata' && liesIn(onset, { start: bar.start, end: endOf(bar) }),
    ),
  );
  return held.length < 2 ? [] : held;
}

/** Whether what is played comes back to a bar from elsewhere: a repeated section begins with it. */
const beginsSection = ({ index, ending }: Bar, { analysis }: ClaimContext): boolean =>
  ending === undefined &&
  analysis.score.playingOrder.some(
    ({ bar }, at, order) => at > 0 && bar === index && order[at - 1]?.bar !== index - 1,
  );

/** Whether the upper line goes on in a bar that a cadence arrives with: where it rests nothing begins there. */
const isLively = (bar: Bar, { analysis }: ClaimContext): boolean =>
  (lineNotes(analysis.score, { kind: 'edge', edge: 'top' }, { start: bar.start, end: endOf(bar) }) ?? [])
    .length > 1;

/** Whether a half cadence is only the first V of a phrase: the bar before it closes more firmly, or fermatas mark the ends of phrases and it has none. */
function isOpening(bar: Bar, close: Close, context: ClaimContext): boolean {
  const { bars } = context.analysis.score;
  const before = bars[bar.index - 1];
  const closed =
    before !== undefined && listedIn(before, context).some(each => finality(each) > finality(close));
  const isListed = listedIn(bar, context).length > 0;
  return closed || (!isListed && barsWithFermata(context).length > 0);
}

/**
 * Whether a phrase can begin with a bar: at the beginning, where the voice enters after an introduction, where the phrase before has closed (in the
 * bar before, or on its own first chord), where the notation parts them, or where the piece begins again (Open Music Theory, The phrase: it goes from one
 * cadence to the next).
 */
export function beginsPhrase(bar: Bar, context: ClaimContext): boolean {
  const { score, opens: opening } = context.analysis;
  const before = score.bars[bar.index - 1];
  const first = score.bars.find(({ number }) => number > 0);
  const opens = score.bars[opening];
  if (before === undefined || first === undefined || opens === undefined) return true;
  if (bar.index <= first.index || bar === opens) return true;
  const own = { start: bar.start, end: endOf(bar) };
  // A bar with a close of its own that stops there is the end of a phrase.
  if (isParted(bar, context) && cadencesIn(own, context).length > 0) return false;
  // What only could be heard to close before a bar that a listed cadence arrives with leads to that cadence.
  const arrived = cadencesIn({ start: bar.start, end: bar.start }, context);
  const closes = arrived.length > 0 ? listedIn(before, context) : closesOf(before, context);
  return (
    closes.some(close => !isOpening(before, close, context)) ||
    beginsSection(bar, context) ||
    (arrived.some(({ kind }) => kind.endsWith('authentic')) && isLively(bar, context)) ||
    isParted(before, context) ||
    (bar.index - opens.index >= barsOfPhrase && likeness(opens, bar, context) === 'same')
  );
}
