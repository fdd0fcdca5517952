import { printKey, readKey } from '../harmony/index.js';
import type { Key } from '../harmony/index.js';

/** `G major`, `F# minor`, `B flat major`. The mode is never left out: `home: F # minor` would otherwise end as F major. */
export const keyPattern = /^[A-G](?:#{1,2}|b{1,2}|♯{1,2}|♭{1,2}|[ -](?:sharp|flat))? (?:major|minor)$/;

/** The key of a text that fits `keyPattern`. */
export function readHome(text: string): Key | undefined {
  return keyPattern.test(text) ? readKey(text) : undefined;
}

/** The key that a text in other clothes (`g minor`, `Am`, `Bb`) probably means, as the lesson wants it written. */
export function probableKey(text: string): string | undefined {
  const meant = readKey(text.trim().replace(/\s+/g, ' '));
  return meant === undefined ? undefined : printKey(meant);
}
