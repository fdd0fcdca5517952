import type { Claim } from './claim.js';
import type { ClaimContext, Verdict } from './model.js';

/** Words that may be said of several bars. */
interface Ambiguous {
  /** What they mean where nothing that they may mean is true. */
  readonly claim: Claim;
  /** All that they may mean, likeliest first. */
  readonly readings?: readonly Claim[];
}

/** What words mean where several bars may be meant: what is true of one of them, if anything is. An author is not contradicted in doubt. */
export function meaningOf(
  { claim, readings = [claim] }: Ambiguous,
  context: ClaimContext,
): { readonly claim: Claim; readonly verdict: Verdict } {
  const itself = { claim, verdict: claim.check(context) };
  const checked = readings.map(each =>
    each === claim ? itself : { claim: each, verdict: each.check({ ...context, probing: true }) },
  );
  return (
    checked.find(({ verdict }) => verdict.verdict === 'holds') ??
    checked.find(({ verdict }) => verdict.verdict === 'arguable') ??
    itself
  );
}
