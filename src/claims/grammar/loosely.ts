const letter = /\p{L}/u;
const breaks = /[\s‐‑–-]/u;

const isBreak = (character: string): boolean => character !== '' && breaks.test(character);
const isApostrophe = (character: string): boolean => character === "'" || character === '’';

/**
 * Where `spelling` ends in `text` when it stands at `at`; `undefined` where something else stands there. Case does not matter,
 * apostrophes, dashes and spaces as typed by word processors match the plain ones, and no letter may follow a word. Written out,
 * because the grammar has so many words that making a regular expression of each takes longer than reading a lesson's claims.
 * @param spelling in small letters
 */
export function endOfSpelling(text: string, at: number, spelling: string): number | undefined {
  let place = at;
  for (const wanted of spelling) {
    const found = text.charAt(place);
    if (wanted === ' ' || wanted === '-') {
      if (!isBreak(found)) return undefined;
      while (isBreak(text.charAt(place))) place++;
      continue;
    }
    const matches =
      found === wanted || (wanted === "'" ? isApostrophe(found) : found.toLowerCase() === wanted);
    if (!matches) return undefined;
    place++;
  }
  return letter.test(spelling.slice(-1)) && letter.test(text.charAt(place)) ? undefined : place;
}
