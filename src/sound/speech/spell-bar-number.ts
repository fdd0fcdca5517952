import { cardinal } from './number-words.js';
import { here, nextCore, wordBefore } from './reading.js';
import type { Place, Rule, TokenReading } from './reading.js';

const barWords = new Set(['bar', 'bars', 'measure', 'measures', 'm.', 'mm.', 'b.', 'bb.']);
const abbreviations: Readonly<Record<string, string>> = {
  'm.': 'measure',
  'mm.': 'measures',
  'b.': 'bar',
  'bb.': 'bars',
};

/** `12`, `12-15`, `7.3` or `7:3` (bar and beat), `8a` (an ending). */
function readBarNumber(text: string): readonly string[] | undefined {
  const range = /^(\d{1,4})([a-z]?)[-–](\d{1,4})([a-z]?)$/u.exec(text);
  const letter = (of: string | undefined) => (of === undefined || of === '' ? [] : [of.toUpperCase()]);
  if (range !== null)
    return [
      ...cardinal(Number(range[1])),
      ...letter(range[2]),
      'to',
      ...cardinal(Number(range[3])),
      ...letter(range[4]),
    ];
  const beat = /^(\d{1,4})[.:](\d{1,2})$/u.exec(text);
  if (beat !== null) return [...cardinal(Number(beat[1])), ',', 'beat', ...cardinal(Number(beat[2]))];
  const single = /^(\d{1,4})([a-z]?)$/u.exec(text);
  return single === null ? undefined : [...cardinal(Number(single[1])), ...letter(single[2])];
}

/** Whether a number stands in a list that a bar word opened: `bars 3, 5 and 7-8`. */
function isInBarList(place: Place): boolean {
  for (let back = place.index - 1; back >= 0; back -= 1) {
    const core = place.tokens[back]?.core.toLowerCase() ?? '';
    if (barWords.has(core)) return true;
    if (
      place.tokens[back + 1]?.startsSentence === true ||
      !/^(\d[\d.:–-]*[a-z]?|and|or|to|through|beat|beats)$/u.test(core)
    )
      return false;
  }
  return false;
}

/** Bar references: `m. 12` measure twelve, `mm. 12-15` measures twelve to fifteen, `bar 7.3` bar seven, beat three. */
export const spellBarNumber: Rule = (place): TokenReading | undefined => {
  const text = here(place);
  const word = abbreviations[text];
  if (word !== undefined && /^\d/u.test(nextCore(place))) return { words: [word] };
  if (!/^\d/u.test(text) || (!barWords.has(wordBefore(place)) && !isInBarList(place))) return undefined;
  const words = readBarNumber(text);
  return words === undefined ? undefined : { words };
};
