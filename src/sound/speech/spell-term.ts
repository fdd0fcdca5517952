import { cardinal, catalogueNumber, ordinal, year } from './number-words.js';
import { here, nextCore, phrase, wordAfter, wordBefore } from './reading.js';
import type { Rule, TokenReading } from './reading.js';
import { noteValueWords, termWords } from './term-words.js';

/** Abbreviations and signs of the trade: `PAC`, `pp`, `rit.`, `8va`, `LH`. */
export const spellTerm: Rule = (place): TokenReading | undefined => {
  const text = here(place);
  const token = place.tokens[place.index];
  const words =
    termWords.get(text) ??
    (token?.whole.startsWith(`${text}.`) === true ? termWords.get(`${text}.`) : undefined);
  if (words === undefined) return undefined;
  if (text === 'no' || text === 'No' || /^[Nn]o\.$/u.test(text))
    return /^\d/u.test(nextCore(place)) ? { words: ['number'] } : undefined;
  // A page of a book, not the sign for soft playing.
  if ((text === 'p' || text === 'pp') && token?.whole.startsWith(`${text}.`) && /^\d/u.test(nextCore(place)))
    return { words: [text === 'p' ? 'page' : 'pages'] };
  if (text === 'DC')
    return { words: phrase(words), doubt: { readAs: words, couldBe: 'da capo (write D.C.)' } };
  return { words: phrase(words) };
};

/** `♩ = 96` and `Q:1/4=96`: quarter note equals ninety-six. */
export const spellTempo: Rule = (place): TokenReading | undefined => {
  const text = here(place);
  const joined = /^(?:Q:)?(.+?)=(\d{1,3})$/u.exec(text);
  const value = noteValueWords.get(joined?.[1] ?? text);
  if (value === undefined) return undefined;
  if (joined !== null) return { words: [...phrase(value), 'equals', ...cardinal(Number(joined[2]))] };
  if (!text.includes('/')) return { words: phrase(value) };
  if (nextCore(place) === '=') return { words: phrase(value) };
  return /^notes?$/u.test(wordAfter(place)) ? { words: phrase(value).slice(0, -1) } : undefined;
};

/** Numbers of works: `op. 31 no. 2`, `K. 331`. */
export const spellCatalogue: Rule = (place): TokenReading | undefined => {
  const text = here(place);
  if (text === 'K.' && /^\d+$/u.test(nextCore(place))) return { words: ['K'] };
  const before = place.tokens[place.index - 1]?.core;
  return before === 'K.' && /^\d+$/u.test(text) ? { words: catalogueNumber(Number(text)) } : undefined;
};

/** Numbers, ordinals, years, decimals, percentages, ranges and ratios. */
export const spellNumber: Rule = (place): TokenReading | undefined => {
  const text = here(place);
  const range = /^(\d{1,6})[-–](\d{1,6})$/u.exec(text);
  if (range !== null) {
    const ends = [Number(range[1]), Number(range[2])];
    const read = ends.every(end => end >= 1100 && end < 2100) ? year : cardinal;
    return { words: ends.flatMap((end, index) => [...(index === 0 ? [] : ['to']), ...read(end)]) };
  }
  const ratio = /^(\d{1,3}):(\d{1,3})$/u.exec(text);
  if (ratio !== null) {
    const [first, second] = [cardinal(Number(ratio[1])), cardinal(Number(ratio[2]))];
    const words = [...first, 'to', ...second];
    const isClear = /^(ratio|relation|proportion|score)$/u.test(wordBefore(place));
    const couldBe = `bar ${first.join(' ')}, beat ${second.join(' ')}`;
    return { words, ...(isClear ? {} : { doubt: { readAs: words.join(' '), couldBe } }) };
  }
  const place_ = /^(\d{1,6})(st|nd|rd|th)(s?)$/u.exec(text);
  if (place_ !== null) {
    const words = ordinal(Number(place_[1]));
    return { words: [...words.slice(0, -1), `${words.at(-1) ?? ''}${place_[3] ?? ''}`] };
  }
  const number = /^(\d{1,3}(?:,\d{3})+|\d+)(?:\.(\d+))?(%?)$/u.exec(text);
  if (number === null) return undefined;
  const value = Number((number[1] ?? '').replaceAll(',', ''));
  const isYear =
    /^1[1-9]\d\d$|^20\d\d$/u.test(text) &&
    /^(in|since|from|of|around|about|by|until|before|after)$/u.test(wordBefore(place));
  const decimals =
    number[2] === undefined ? [] : ['point', ...[...number[2]].flatMap(digit => cardinal(Number(digit)))];
  const percent = number[3] === '%' ? ['percent'] : [];
  return { words: [...(isYear ? year(value) : cardinal(value)), ...decimals, ...percent] };
};
