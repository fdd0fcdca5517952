import type { Bar } from '../../score/index.js';
import type { Claim, Predicate } from '../claim.js';
import type { ClaimContext } from '../model.js';
import { statement } from '../statement.js';
import { span } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { closesOf } from './closes.js';

/** By how many bars a unit is taken too short or too long at its end, and at its beginning; what makes it longer first. */
const slips = { end: [1, 2, 3, 4, -1, -2, -3, -4], beginning: [-1, -2, -3, -4, 1, 2, 3, 4] } as const;

/** Beyond those slips so many closes are looked for behind the place. */
const closesAhead = 2;

/**
 * The same predicate of the bars that someone may mean who names a unit with a wrong end or a wrong beginning, the likeliest first: at other ends,
 * at the next closes behind them, at other beginnings. They are not yet known to be true.
 */
export function claimsOfNearBars(
  bars: readonly Bar[],
  predicate: Predicate<Span>,
  context: ClaimContext,
): readonly Claim[] {
  const [first, last] = [bars[0], bars.at(-1)];
  if (first === undefined || last === undefined) return [];
  const { bars: all } = context.analysis.score;
  const of = (from: Bar | undefined, to: Bar | undefined): readonly Claim[] =>
    from === undefined || to === undefined || from.number === 0 || to.index <= from.index
      ? []
      : [statement(span({ kind: 'bars', first: from.label, last: to.label }), predicate)];
  const closing = all
    .slice(last.index + 1)
    .filter(bar => closesOf(bar, context).length > 0)
    .slice(0, closesAhead);
  return [
    ...slips.end.flatMap(slip => of(first, all[last.index + slip])),
    ...closing.flatMap(bar => of(first, bar)),
    ...slips.beginning.flatMap(slip => of(all[first.index + slip], last)),
  ];
}
