import { isUnread, keyOfTarget, parseRomanNumeral } from '../harmony/index.js';
import type { Key, Segment } from '../harmony/index.js';

/** The key that the chord of a segment is applied to as its dominant; `undefined` for a chord of the key itself. */
export function keyAppliedTo(segment: Segment): Key | undefined {
  const read = parseRomanNumeral(segment.roman);
  if (isUnread(read) || read.target === undefined || (read.degree !== 5 && read.degree !== 7))
    return undefined;
  return keyOfTarget(read.target, segment.key);
}
