import { compare } from '../score/index.js';
import type { Claim } from './claim.js';
import type { ClaimContext, Range } from './model.js';
import { isPlace } from './place/place-in.js';
import type { Place } from './place/place.js';
import { isResolved, resolvePlace } from './place/resolve.js';

/**
 * Matters of which a place has one only: a chord that is named so is not named otherwise. Several notes, several non-chord tones and
 * several motions of the voices stand beside each other without harm.
 */
const matterOfFamily: Readonly<Record<string, string>> = {
  chord: 'chord',
  numeral: 'chord',
  'chord within a place': 'chord',
  key: 'key',
  cadence: 'cadence',
  function: 'function',
};

interface Matter {
  readonly matter: string;
  readonly place: Place;
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null;

/** What the content of a plain sentence about a place speaks of; nothing for a denial, a comparison or a line. */
function matterOf({ content }: Claim): Matter | undefined {
  if (!isRecord(content) || (isRecord(content['what']) && 'not' in content['what'])) return undefined;
  const { subject, quantity, says } = content;
  const place = isRecord(quantity) ? quantity['place'] : subject;
  const matter = typeof says === 'string' ? matterOfFamily[says] : undefined;
  return matter === undefined || !isPlace(place) ? undefined : { matter, place };
}

function rangeOf(place: Place, context: ClaimContext): Range | undefined {
  const resolved = resolvePlace(place, context);
  return isResolved(resolved) ? resolved.range : undefined;
}

const contains = (outer: Range, inner: Range): boolean =>
  compare(outer.start, inner.start) <= 0 && compare(inner.end, outer.end) <= 0;

/**
 * Whether two claims answer the same question about the same notes, so that both cannot be true unless they say the same: the chord, the
 * key or the function of a place that `other` speaks of as a whole, or the cadence that one of them finds within the other's place.
 */
export function areOfSameMatter(one: Claim, other: Claim, context: ClaimContext): boolean {
  return (other.parts ?? [other]).some(part => {
    const [a, b] = [matterOf(one), matterOf(part)];
    if (a === undefined || b === undefined || a.matter !== b.matter) return false;
    const [inner, outer] = [rangeOf(a.place, context), rangeOf(b.place, context)];
    if (inner === undefined || outer === undefined) return false;
    return contains(outer, inner) || (a.matter === 'cadence' && contains(inner, outer));
  });
}
