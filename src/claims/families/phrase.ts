import { isBefore } from '../../score/index.js';
import type { Bar } from '../../score/index.js';
import type { Finding } from '../claim.js';
import type { ClaimContext } from '../model.js';
import { endOf } from '../place/beats.js';
import { liesIn } from '../segments.js';
import type { Span } from '../subjects/span.js';
import { withArticle } from '../terms/chord-name.js';
import { barsOfPhrase, barsWithFermata, beginsPhrase, cadencesIn, closesOf, finality } from './closes.js';
import type { Close } from './closes.js';
import {
  closeHalfWay,
  comesBackHalfWay,
  disputedClose,
  cadenceEvidence,
  fails,
  introducedBy,
  midPhrase,
} from './form-question.js';
import type { Asked, Doubt } from './form-question.js';
import { likeness } from './likeness.js';

/** Where fermatas mark the ends of phrases, one within a phrase ends one, and an end without one is none. */
function fermataDoubt(full: readonly Bar[], context: ClaimContext): string | undefined {
  const held = barsWithFermata(context);
  const last = full.at(-1);
  if (last === undefined || held.length === 0) return undefined;
  const within = full.slice(0, -1).find(bar => held.includes(bar));
  if (within !== undefined)
    return `, but the fermata in bar ${within.label} marks the end of a phrase within it`;
  return held.includes(last)
    ? undefined
    : `, but the phrases end with fermatas, and bar ${last.label} has none`;
}

/** What speaks against one phrase although it closes: another close within it, or a close that books dispute. */
function doubtOf({ span, bars, context }: Asked, close: Close): Doubt | undefined {
  const full = bars.filter(bar => bar.number > 0);
  const inside = cadencesIn(span.range, context).filter(
    each => isBefore(each.onset, close.onset) && each.kind !== 'evaded',
  );
  const barOf = (each: Close): number =>
    full.findIndex(bar => liesIn(each.onset, { start: bar.start, end: endOf(bar) })) + 1;
  // What arrives in the first half has not had the time to close a phrase, and a plainer stop behind it outweighs it.
  // Where the next phrase begins as this one, the two are marked off as units.
  const opens = full[0];
  const next = context.analysis.score.bars[(full.at(-1)?.index ?? 0) + 1];
  const isAnswered =
    opens !== undefined &&
    next !== undefined &&
    ['same', 'transposed'].includes(likeness(opens, next, context));
  const early = isAnswered
    ? undefined
    : inside.find(
        each =>
          finality(each) >= finality(close) &&
          (close.strength === 0 || each.strength >= close.strength) &&
          barOf(each) >= full.length / 2,
      );
  if (early !== undefined)
    return {
      code: 'C1803',
      reason: `, but ${withArticle(early.kind)} cadence within it already closes as firmly`,
    };
  const halfWay = comesBackHalfWay(full, context) ? closeHalfWay(full, context) : undefined;
  const between = [...inside, ...(halfWay === undefined ? [] : [halfWay])].find(
    each => finality(each) > 0 && barOf(each) >= barsOfPhrase && full.length - barOf(each) >= barsOfPhrase,
  );
  if (between !== undefined)
    return {
      code: 'C1803',
      reason: `, but ${withArticle(between.kind)} cadence in bar ${full[barOf(between) - 1]?.label ?? ''} already ends a phrase: many would count two`,
    };
  const marked = fermataDoubt(full, context);
  if (marked !== undefined) return { code: 'C1803', reason: marked };
  const introduced = introducedBy(full, context);
  if (introduced !== undefined) return { code: 'C1807', reason: `, but ${introduced}` };
  const disputed = disputedClose(close);
  return disputed === undefined ? undefined : { code: 'C1805', reason: `: ${disputed}` };
}

/** Whether bars are one phrase, of so many bars where that is said. */
export function checkPhrase(asked: Asked, length: number | undefined): Finding<Span> {
  const { span, bars, context } = asked;
  const full = bars.filter(bar => bar.number > 0);
  if (length !== undefined && full.length !== length)
    return fails(
      `${span.name} ${full.length === 1 ? 'is' : 'are'} ${String(full.length)} full bars, counted with the first and the last`,
    );
  const [close] = closesOf(bars.at(-1), context);
  if (close === undefined)
    return fails(
      `no cadence arrives in the last bar of ${span.name}: Open Music Theory and Hutchinson ask a phrase to end with one`,
    );
  const [start] = full;
  if (start !== undefined && !beginsPhrase(start, context)) return midPhrase(start);
  const doubt = doubtOf(asked, close);
  return {
    verdict: doubt === undefined ? 'holds' : 'arguable',
    code: doubt?.code ?? 'C1801',
    reason: `it ends with ${withArticle(close.kind)} cadence${doubt?.reason ?? ''}`,
    evidence: cadenceEvidence([close], 'supports', context),
  };
}
