import type { Claim, Predicate } from '../claim.js';
import type { ClaimContext } from '../model.js';
import { nameOf } from '../quantity/units.js';
import { statement } from '../statement.js';
import { span as spanOf } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';

/**
 * What is said of one beat is said of the moment at which it begins. Where it is true of all that sounds until the next beat, this is the
 * sentence that says so: `bar 3 beat 2 until bar 3 beat 3 is V7`; none where it is not.
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
  return whole.check({ ...context, probing: true }).verdict === 'holds' ? [whole] : [];
}
