import { printBeat, readClaim, withArticle } from '../claims/index.js';
import type { ClaimContext } from '../claims/index.js';
import { printKey, sameKey } from '../harmony/index.js';
import type { CadenceKind, Key, Segment } from '../harmony/index.js';
import { barAt, equals, placeAt } from '../score/index.js';
import type { Fraction, Score } from '../score/index.js';

/*
 * Sentences of the claim language about what the engine heard: for a draft, and for an author who asks what can be said of a bar.
 */

/** `bar 3` where a harmony fills its bar, else `bar 3 beat 2`. */
export function placeOfHarmony(
  score: Score,
  { start, end }: Pick<Segment, 'start' | 'end'>,
  beatUnit?: Fraction,
): string | undefined {
  const bar = barAt(score, start);
  const place = placeAt(score, start, beatUnit);
  if (bar === undefined || place === undefined) return undefined;
  const next = score.bars[bar.index + 1]?.start ?? score.length;
  const fills = equals(start, bar.start) && equals(end, next);
  return fills ? `bar ${bar.label}` : `bar ${bar.label} beat ${printBeat(place.beat)}`;
}

/** `bar 3 is V65`, with the key where it is not the lesson's own. */
export const numeralSentence = (place: string, { roman, key }: Segment, home: Key): string =>
  `${place} is ${roman}${sameKey(key, home) ? '' : ` in ${printKey(key)}`}`;

/** `a half cadence` */
export const cadenceWords = (kind: CadenceKind): string => withArticle(`${kind} cadence`);

/** Whether a sentence can be read and the notes support it. */
export function holdsIn(context: ClaimContext, text: string): boolean {
  const read = readClaim(text);
  return 'claim' in read && read.claim.check(context).verdict === 'holds';
}
