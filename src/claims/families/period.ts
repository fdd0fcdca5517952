import { compare, isBefore } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { endOf } from '../place/beats.js';
import { isPlural } from '../place/place.js';
import { liesIn } from '../segments.js';
import type { Span } from '../subjects/span.js';
import { beginsPhrase, cadencesIn, closesOf, finality } from './closes.js';
import type { Close } from './closes.js';
import {
  closeHalfWay,
  disputedClose,
  cadenceEvidence,
  fails,
  introducedBy,
  midPhrase,
} from './form-question.js';
import type { Asked, Doubt } from './form-question.js';
import { likeness } from './likeness.js';

/** How the two phrases of a period begin: alike or not (Open Music Theory, The phrase, archetypes, and unique forms; Hutchinson, Periods). */
export type Openings = 'parallel' | 'contrasting';

/** Whether bars are two phrases of which the second closes more firmly. */
export function checkPeriod({ span, bars, context }: Asked, openings: Openings | undefined): Finding<Span> {
  const last = bars.at(-1);
  if (last === undefined) return fails('there are no bars');
  const all = bars.filter(bar => bar.number > 0);
  // The phrases are counted from where the melody enters.
  const full = all.filter(({ index }) => index >= context.analysis.opens);
  const middle = full[Math.ceil(full.length / 2) - 1];
  const final = closesOf(last, context).at(-1);
  const listed: readonly Close[] = cadencesIn(span.range, context);
  const halfWay = closeHalfWay(full, context);
  const closes = halfWay === undefined || listed.includes(halfWay) ? listed : [halfWay, ...listed];
  const barOf = (each: Close): number =>
    full.findIndex(bar => liesIn(each.onset, { start: bar.start, end: endOf(bar) })) + 1;
  // Two phrases of a period are about as long as each other, and neither is a single bar.
  const earlier = closes.filter(each => {
    const [one, other] = [barOf(each), full.length - barOf(each)];
    return (
      each.kind !== 'evaded' &&
      (final === undefined || isBefore(each.onset, final.onset)) &&
      Math.min(one, other) > 1 &&
      Math.max(one, other) <= 2 * Math.min(one, other)
    );
  });
  // The first phrase closes half-way where it can, and else where the firmest close is.
  const first =
    earlier.find(
      each => middle !== undefined && liesIn(each.onset, { start: middle.start, end: endOf(middle) }),
    ) ?? [...earlier].sort((a, b) => b.strength - a.strength)[0];
  if (final === undefined || first === undefined)
    return fails(
      `a period has two phrases, each with its cadence; ${span.name} ${isPlural(span.place) ? 'have' : 'has'} ${closes.length === 0 ? 'none' : final === undefined ? 'none at the end' : 'none half-way'}`,
      cadenceEvidence(closes, 'contradicts', context),
    );
  const [begins] = all;
  if (begins !== undefined && !beginsPhrase(begins, context)) return midPhrase(begins);
  const pair = `${first.kind}, then ${final.kind}`;
  if (finality(first) >= finality(final))
    return fails(
      `the first cadence is not weaker than the second: ${pair}${finality(first) === finality(final) ? '; two equal closes make a repetition' : ''}`,
      cadenceEvidence([first, final], 'contradicts', context),
    );
  if (!final.kind.endsWith('authentic'))
    return fails(
      `the second phrase of a period closes with an authentic cadence: ${pair}`,
      cadenceEvidence([first, final], 'contradicts', context),
    );
  const second = bars.find(bar => compare(bar.start, first.onset) > 0);
  const [opens] = full;
  const like = opens === undefined || second === undefined ? 'other' : likeness(opens, second, context);
  if (openings === 'contrasting' && like !== 'other' && like !== 'contour')
    return fails(
      `${pair}, but the two phrases begin alike, which makes the period parallel`,
      cadenceEvidence([first, final], 'set aside', context),
    );
  if (openings === 'parallel' && like === 'other')
    return fails(
      `${pair}, but the two phrases do not begin alike`,
      cadenceEvidence([first, final], 'set aside', context),
    );
  const isPartly = openings !== undefined && like === 'contour';
  const disputed = disputedClose(first);
  const introduced = introducedBy(all, context);
  const doubt: Doubt | undefined =
    disputed !== undefined
      ? { code: 'C1805', reason: `: ${disputed}` }
      : isPartly
        ? { code: 'C1806', reason: ': the phrases begin alike in rhythm and contour only' }
        : introduced === undefined
          ? undefined
          : { code: 'C1807', reason: `, but ${introduced}` };
  return {
    verdict: doubt === undefined ? 'holds' : 'arguable',
    code: doubt?.code ?? 'C1801',
    reason: `${pair}${doubt?.reason ?? ''}`,
    evidence: cadenceEvidence([first, final], 'supports', context),
  };
}

/** One of the two phrases of a period: with the phrase as long before or behind it. */
export function checkHalf({ span, bars, context }: Asked, half: 'antecedent' | 'consequent'): Finding<Span> {
  const full = bars.filter(bar => bar.number > 0);
  const [first] = full;
  const last = full.at(-1);
  const { bars: all } = context.analysis.score;
  if (first === undefined || last === undefined) return fails('there are no bars');
  const other = all.slice(
    half === 'antecedent' ? last.index + 1 : Math.max(0, first.index - full.length),
    half === 'antecedent' ? last.index + 1 + full.length : first.index,
  );
  const both = half === 'antecedent' ? [...full, ...other] : [...other, ...full];
  const ends = half === 'antecedent' ? last : other.at(-1);
  if (ends !== undefined && closesOf(ends, context).length === 0)
    return fails(`no cadence ends the first phrase in bar ${ends.label}`);
  const [opens] = both;
  const closes = both.at(-1);
  if (other.length < full.length || opens === undefined || closes === undefined)
    return fails(
      `no phrase as long as ${span.name} ${half === 'antecedent' ? 'follows' : 'comes before'} it`,
    );
  return checkPeriod(
    { span: { ...span, range: { start: opens.start, end: endOf(closes) } }, bars: both, context },
    undefined,
  );
}
