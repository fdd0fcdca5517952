import type { Judged } from './claim.js';
import type { ClaimContext, Range } from './model.js';
import { printPlace } from './place/place-name.js';
import type { Place } from './place/place.js';
import { isResolved, resolvePlace } from './place/resolve.js';

/** What is answered where one place is wanted and the bar has several endings. */
export const severalEndings = (place: Place): Judged => ({
  verdict: 'undecided',
  code: 'C0007',
  reason: `${printPlace(place)} has several endings; name one`,
  evidence: [],
});

/** A place of the piece, or why it is none. */
export function rangeOf(
  place: Place,
  context: ClaimContext,
): { readonly range: Range } | { readonly problem: Judged } {
  const resolved = resolvePlace(place, context);
  if (isResolved(resolved)) return { range: resolved.range };
  if ('problem' in resolved)
    return {
      problem: {
        verdict: resolved.code === 'C0010' ? 'undecided' : 'fails',
        code: resolved.code,
        reason: resolved.problem,
        evidence: [],
      },
    };
  return { problem: severalEndings(place) };
}
