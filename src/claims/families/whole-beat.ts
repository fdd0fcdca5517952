import { segmentAt } from '../../harmony/index.js';
import type { Claim, Predicate } from '../claim.js';
import type { ClaimContext } from '../model.js';
import { nameOf } from '../quantity/units.js';
import { statement } from '../statement.js';
import { span as spanOf } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';

/**
 * What is said of one beat is said of the moment at which it begins. Where it is true of all that sounds until the next beat, this is the
 * sentence that says so: `bar 3 beat 2 until bar 3 beat 3 is V7`; none where it is not, or where the beat is a part of a harmony of which it is
 * not true (what a part of a broken chord spells by itself is no chord).
 */
export function trueOfWholeBeat(
  { moment, range }: Span,
  predicate: Predicate<Span>,
  context: ClaimContext,
): readonly Claim[] {
  const from = moment === undefined ? undefined : nameOf(range.start, false, context);
  const until = nameOf(range.end, true, context);
  if (from === undefined || until === undefined) return [];
  const whole = statement(spanOf({ kind: 'stretch', from, until }), predicate);
  const verdictOf = (claim: Claim): string => claim.check({ ...context, probing: true }).verdict;
  if (verdictOf(whole) !== 'holds') return [];
  const harmony = segmentAt(context.analysis, range.start);
  const [begins, ends] = [harmony?.start, harmony?.end].map((time, at) =>
    time === undefined ? undefined : nameOf(time, at === 1, context),
  );
  if (begins === undefined || ends === undefined) return [whole];
  const around = statement(spanOf({ kind: 'stretch', from: begins, until: ends }), predicate);
  return verdictOf(around) === 'fails' ? [] : [whole];
}
