import type { Finding } from '../claim.js';
import type { Span } from '../subjects/span.js';
import { withArticle } from '../terms/chord-name.js';
import { beginsPhrase, closesOf, finality } from './closes.js';
import { comesBackHalfWay, disputedClose, cadenceEvidence, fails, midPhrase } from './form-question.js';
import type { Asked } from './form-question.js';
import { likeness, rhythmOf } from './likeness.js';

/** A sentence: an idea, its repetition, a continuation as long as both that ends with a cadence. */
export function checkSentence({ span, bars, context }: Asked): Finding<Span> {
  const full = bars.filter(bar => bar.number > 0);
  if (full.length % 4 !== 0 || full.length === 0)
    return fails(
      `${String(full.length)} bars do not divide into idea, repetition and a continuation as long as both`,
    );
  const [start] = full;
  if (start !== undefined && !beginsPhrase(start, context)) return midPhrase(start);
  const quarter = full.length / 4;
  const alike = full.slice(0, quarter).every((bar, at) => {
    const copy = full[at + quarter];
    return copy !== undefined && rhythmOf(bar, context) === rhythmOf(copy, context);
  });
  const last = full.at(-1);
  const closes = closesOf(last, context);
  const [close] = closes;
  if (!alike)
    return fails(
      `the second ${String(quarter)} ${quarter === 1 ? 'bar does' : 'bars do'} not repeat the rhythm of the first in ${span.name}`,
    );
  if (close === undefined) return fails('no cadence ends the continuation');
  const copy = full[quarter];
  // The repetition of an idea leaves it open: what closes with it, and begins again, are two phrases.
  const [answered] = closesOf(full[2 * quarter - 1], context);
  const isComplete = answered !== undefined && finality(answered) >= finality(close);
  if (answered !== undefined && (isComplete || comesBackHalfWay(full, context)))
    return fails(
      `${withArticle(answered.kind)} cadence closes the repetition${isComplete ? '' : ', and the second half begins as the first did'}: two phrases rather than one`,
      cadenceEvidence([answered], 'contradicts', context),
    );
  const like = start === undefined || copy === undefined ? 'other' : likeness(start, copy, context);
  // One bar is short for an idea, and a rhythm that returns need not be a repetition.
  const doubt =
    disputedClose(close) ??
    (quarter < 2
      ? 'an idea of a single bar is short for a sentence'
      : answered !== undefined
        ? `${withArticle(answered.kind)} cadence closes the repetition already`
        : like === 'other'
          ? 'the repetition keeps the rhythm of the idea, but not its contour'
          : undefined);
  return {
    verdict: doubt === undefined ? 'holds' : 'arguable',
    code: doubt === undefined ? 'C1801' : disputedClose(close) === undefined ? 'C1806' : 'C1805',
    reason: `idea and repetition of ${String(quarter)} ${quarter === 1 ? 'bar' : 'bars'} each, then a continuation to ${withArticle(close.kind)} cadence${doubt === undefined ? '' : `: ${doubt}`}`,
    evidence: cadenceEvidence(closes, 'supports', context),
  };
}
