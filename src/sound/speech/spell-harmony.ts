import {
  isPlainNumeral,
  isSuspensionFigure,
  readChordSymbol,
  readInterval,
  readMeter,
  readNote,
  readNumeral,
} from './music-words.js';
import type { Reading } from './music-words.js';
import { digits } from './number-words.js';
import { here, nextCore, wordAfter, wordBefore } from './reading.js';
import type { Place, Rule, TokenReading } from './reading.js';

const intervalOnly = (text: string): boolean => /^[PMmd]\d+$/u.test(text) && readInterval(text) !== undefined;
const intervalBefore = new Set(['an', 'interval', 'leap', 'skip', 'by', 'augmented', 'interval:']);
const intervalAfter = new Set(['interval', 'leap', 'above', 'below', 'up', 'down', 'apart', 'between']);

/** `P5` perfect fifth; `A4` is an augmented fourth beside words or signs that speak of intervals, else the pitch, with a doubt. */
export const spellInterval: Rule = (place): TokenReading | undefined => {
  const text = here(place);
  const words = readInterval(text);
  if (words === undefined) return undefined;
  if (intervalOnly(text)) return { words };
  const neighbours = [place.tokens[place.index - 1]?.core ?? '', nextCore(place)];
  if (
    intervalBefore.has(wordBefore(place)) ||
    intervalAfter.has(wordAfter(place)) ||
    neighbours.some(intervalOnly)
  )
    return { words };
  const pitchBefore = ['note', 'pitch', 'chord', 'soprano', 'bass', 'on'].includes(wordBefore(place));
  const pitch = readNote(text) ?? [];
  return pitchBefore
    ? { words: pitch }
    : { words: pitch, doubt: { readAs: `the pitch ${pitch.join(' ')}`, couldBe: words.join(' ') } };
};

/** `C:` or `a:` before a numeral: the key in which it is read. */
export const spellKeyLabel: Rule = (place): TokenReading | undefined => {
  const token = place.tokens[place.index];
  const match = /^([A-Ga-g])([#b♯♭]?)$/u.exec(here(place));
  if (
    token === undefined ||
    match === null ||
    !token.whole.endsWith(':') ||
    readNumeral(nextCore(place)) === undefined
  )
    return undefined;
  const [, letter = '', sign = ''] = match;
  const minor = letter === letter.toLowerCase() ? ['minor'] : [];
  return { words: ['in', ...(readNote(letter.toUpperCase() + sign) ?? []), ...minor] };
};

function numeralWords(text: string, place: Place): Reading | undefined {
  if (text === 'VII' && place.options.mode === 'minor') return ['seven', ',', 'the', 'subtonic'];
  if (text === 'i') return ['one', ',', 'minor'];
  return readNumeral(text);
}

/** Roman numerals, also those of one letter where it is no other word: `V`, `v`. */
export const spellNumeral: Rule = (place): TokenReading | undefined => {
  const text = here(place);
  if (text === 'V' || text === 'v') return { words: ['five'] };
  const words =
    isPlainNumeral(text) || /^(N6|It|Fr|Ger|[Cc]ad|C[Tt][o°]|ct[o°])\+?\d?/u.test(text)
      ? numeralWords(text, place)
      : undefined;
  return words === undefined ? undefined : { words };
};

/** Note names with an accidental or an octave, and chord symbols. "Am I" and "Am" at the head of a question stay words. */
export const spellNoteOrChord: Rule = (place): TokenReading | undefined => {
  const text = here(place);
  if (text === 'Am' && place.tokens[place.index]?.startsSentence === true && wordAfter(place) === 'i')
    return undefined;
  if (text.length < 2) return undefined;
  const named = /^([A-G])[-‑](flat|sharp|natural|major|minor)$/u.exec(text);
  if (named !== null) return { words: [named[1] ?? '', named[2] ?? ''] };
  const words = readNote(text) ?? readChordSymbol(text);
  return words === undefined ? undefined : { words };
};

const functionNames: Readonly<Record<string, string>> = { T: 'tonic', PD: 'predominant', D: 'dominant' };

/** Things joined by dashes or arrows: `I-IV-V-I`, `C–E–G`, `T-PD-D`, `5-4-3`; each one is read, with short pauses. */
export const spellProgression: Rule = (place): TokenReading | undefined => {
  const parts = here(place).split(/[-–—→]+>?|->/u);
  if (parts.length < 2 || parts.some(part => part === '')) return undefined;
  const readers: readonly ((part: string) => Reading | undefined)[] = [
    part => numeralWords(part, place),
    part => readChordSymbol(part) ?? readNote(part),
    part => (functionNames[part] === undefined ? undefined : [functionNames[part]]),
  ];
  for (const read of readers) {
    const words = parts.map(read);
    if (words.every(reading => reading !== undefined))
      return { words: words.flatMap((reading, index) => (index === 0 ? reading : [',', ...reading])) };
  }
  const numbers = parts.length > 2 && parts.every(part => /^\d$/u.test(part));
  return numbers
    ? { words: parts.flatMap((part, index) => (index === 0 ? digits(part) : [',', ...digits(part)])) }
    : undefined;
};

/** `4-3` four three suspension; the noun is not said twice. */
export const spellSuspension: Rule = (place): TokenReading | undefined => {
  const text = here(place);
  if (!isSuspensionFigure(text)) return undefined;
  const named = /^(suspensions?|retardations?|motion|figure|chain)$/u.test(wordAfter(place));
  return { words: [...digits(text), ...(named || text.startsWith('6') ? [] : ['suspension'])] };
};

/** `3/4` three four, also the figures of a chord: both are read number by number. */
export const spellMeter: Rule = (place): TokenReading | undefined => {
  const text = here(place);
  if (text === '1/4' || text === '1/8' || text === '1/2') return undefined;
  const words = readMeter(text) ?? (/^\d(\/\d){1,2}$/u.test(text) ? digits(text) : undefined);
  return words === undefined ? undefined : { words };
};

/** `#4` sharp four, `6` six. */
function figure(part: string): Reading {
  const sign = /^[#♯]/u.test(part) ? ['sharp'] : /^[b♭]/u.test(part) ? ['flat'] : [];
  return [...sign, ...digits(part)];
}

/** `ˆ5`, `^5` and 5 with a circumflex: scale degree five; `#4`, `b6-5`: sharp four, flat six, five. */
export const spellDegree: Rule = (place): TokenReading | undefined => {
  const text = here(place);
  // A number with an accidental and nothing else: a figure or a degree of the scale.
  const altered = /^[#♯b♭][1-7](?:[-–—][#♯b♭]?[1-7])*$/u.test(text) ? text.split(/[-–—]/u) : [];
  if (altered.length > 0)
    return { words: altered.flatMap((part, index) => [...(index === 0 ? [] : [',']), ...figure(part)]) };
  const match = /^[ˆ^]([#♯b♭]?)([1-7])$|^([#♯b♭]?)([1-7])\u0302$/u.exec(text);
  if (match === null) return undefined;
  const sign = (match[1] ?? match[3] ?? '').replace('♯', '#').replace('♭', 'b');
  const alteration = sign === '#' ? ['raised'] : sign === 'b' ? ['lowered'] : [];
  return { words: [...alteration, 'scale', 'degree', ...digits(match[2] ?? match[4] ?? '')] };
};
