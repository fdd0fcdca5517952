import type { Edit } from './put-claim.js';
import { yamlPlace } from './yaml-place.js';

const barKeys: readonly string[] = ['bars', 'play'];

/** Bars of the score by their labels, both inclusive. */
export interface LabelledBars {
  readonly first: string;
  readonly last: string;
}

export const barsText = ({ first, last }: LabelledBars): string =>
  first === last ? first : `${first}-${last}`;

/**
 * Writes bars at the cursor where their number is awaited: behind `bars:` and `play:`, and behind the word `bar` of a claim.
 * @returns `undefined` where none is awaited, so that looking at a bar changes nothing
 */
export function putBars(text: string, cursor: number, bars: LabelledBars): Edit | undefined {
  if (/^[\w-]/u.test(text.slice(cursor, cursor + 1))) return undefined;
  const { path, what, written } = yamlPlace(text.slice(0, cursor));
  const number = barsText(bars);
  const put = (from: number, insert: string): Edit => ({
    from,
    to: cursor,
    insert,
    cursor: from + insert.length,
  });
  if (what === 'value' && written === '' && barKeys.includes(path.at(-1) ?? ''))
    return put(cursor, `${/\s$/u.test(text.slice(0, cursor)) ? '' : ' '}${number}`);
  const word = /(?<=^|[\s{"'])bars? +$/iu.exec(written)?.[0];
  // In prose a bar is spelled as the author likes; only a claim is read.
  const isClaim = what !== 'block text' || /\]\{[^}]*$/u.test(written);
  if (word === undefined || !isClaim) return undefined;
  return put(cursor - word.length, `${word[0] ?? 'b'}ar${bars.first === bars.last ? '' : 's'} ${number}`);
}
