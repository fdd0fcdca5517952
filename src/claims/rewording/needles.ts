/** A pattern in its parts: what stands plainly, and what is one of several. */
type Part = { readonly plain: string } | { readonly oneOf: readonly string[] };

/** The parts of a pattern that stand outside all brackets; a stretch is a part that says nothing. */
function partsOf(said: string): readonly Part[] {
  const parts: Part[] = [];
  let plain = '';
  let depth = 0;
  let options: string[] = [];
  for (const sign of said.replace(/<[^>]+>|\[[^\]]*\]/gu, ' ').replace(/[$^]/gu, '')) {
    if (sign === ')' && --depth === 0) {
      parts.push({ oneOf: [...options, plain] });
      plain = '';
    } else if (sign === '(' && depth++ === 0) {
      parts.push({ plain });
      plain = '';
      options = [];
    } else if (sign === '|' && depth === 1) {
      options.push(plain);
      plain = '';
    } else plain += sign;
  }
  return [...parts, { plain }];
}

/** The longest word that stands in a text whatever else does: not within brackets, nothing of it optional. */
const longestWord = (text: string): string =>
  text
    .replace(/\(.*\)/gu, ' ')
    .replace(/.\?/gu, ' ')
    .split(/[\s,()|]+/u)
    .reduce((longest, word) => (word.length > longest.length ? word : longest), '');

/**
 * Words one of which stands in whatever a turn of phrase fits, the rarest that can be had: to look for them costs less than to try the
 * turn. None where a turn has no such words.
 */
export function needlesOf(said: string): readonly string[] {
  const lists = partsOf(said).map(part =>
    'plain' in part ? [longestWord(part.plain)] : part.oneOf.map(longestWord),
  );
  const shortest = (words: readonly string[]): number => Math.min(...words.map(word => word.length));
  const best = lists.reduce<readonly string[]>(
    (found, words) => (found.length === 0 || shortest(words) > shortest(found) ? words : found),
    [],
  );
  return best.length > 0 && shortest(best) > 0 ? best : [];
}
