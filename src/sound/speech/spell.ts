import { homographs } from './term-words.js';
import { here, phrase, wordAfter, wordBefore } from './reading.js';
import type { Doubt, Place, Rule, SpellingOptions, TokenReading } from './reading.js';
import { spellBarNumber } from './spell-bar-number.js';
import {
  spellDegree, spellInterval, spellKeyLabel, spellMeter, spellNoteOrChord, spellNumeral, spellProgression, spellSuspension,
} from './spell-harmony.js'; // prettier-ignore
import { spellFunction, spellLetterA, spellLetterI, spellOtherLetter } from './spell-letter.js';
import { spellCatalogue, spellNumber, spellTempo, spellTerm } from './spell-term.js';
import { tokensOf } from './token.js';
import type { Pause, Token } from './token.js';

/** One shown word and what is said for it. */
export interface SpokenPiece {
  /** Offsets in the shown text. */
  readonly from: number;
  readonly to: number;
  /** Plain words in lower case; a single capital letter is the name of a letter, `,` a short pause. */
  readonly words: readonly string[];
  readonly pause: Pause;
}

export interface SpelledText {
  readonly pieces: readonly SpokenPiece[];
  /** Tokens that could have been read in another way. */
  readonly doubts: readonly Doubt[];
}

/** Rules in the order in which they are asked; the first one that knows the token reads it. */
const rules: readonly Rule[] = [
  spellFromLexicon,
  spellBarNumber,
  spellTempo,
  spellCatalogue,
  spellKeyLabel,
  spellFunction,
  spellTerm,
  spellSuspension,
  spellLetterA,
  spellLetterI,
  spellNumeral,
  spellInterval,
  spellOtherLetter,
  spellNoteOrChord,
  spellProgression,
  spellDegree,
  spellMeter,
  spellNumber,
  spellPossessive,
  spellHomograph,
];

/**
 * Spells shown text for a voice: numerals, figures, accidentals, chord symbols, bar numbers and abbreviations of the trade become plain
 * words. What is shown stays as it is; every piece knows the offsets that it stands for. A token without anything that can be said
 * is left out.
 *
 * @example spell('V7/V') // five seven of five
 */
export function spell(text: string, options: SpellingOptions = {}): SpelledText {
  const tokens = tokensOf(text);
  const pieces: SpokenPiece[] = [];
  const doubts: Doubt[] = [];
  for (let index = 0; index < tokens.length;) {
    const token = tokens[index];
    if (token === undefined) break;
    const place: Place = { tokens, index, text, options };
    const reading = firstReading(place) ?? { words: plainWords(token) };
    const takes = Math.max(1, reading.takes ?? 1);
    const last = tokens[index + takes - 1] ?? token;
    if (reading.words.length > 0)
      pieces.push({ from: token.from, to: last.to, words: reading.words, pause: last.pause });
    else lengthenPause(pieces, token);
    if (reading.doubt !== undefined)
      doubts.push({ from: token.from, to: token.to, written: token.core, ...reading.doubt });
    index += takes;
  }
  return { pieces, doubts };
}

function firstReading(place: Place): TokenReading | undefined {
  for (const rule of rules) {
    const reading = rule(place);
    if (reading !== undefined) return reading;
  }
  return undefined;
}

/** A dash on its own is a short pause after the word before it. */
function lengthenPause(pieces: SpokenPiece[], token: Token): void {
  const before = pieces.at(-1);
  if (before === undefined) return;
  const pause = token.pause === 'none' ? 'short' : token.pause;
  if (before.pause === 'none' || token.pause !== 'none') pieces[pieces.length - 1] = { ...before, pause };
}

/** The author's own words: the longest entry of the lexicon that stands here. */
function spellFromLexicon(place: Place): TokenReading | undefined {
  const { tokens, index, text, options } = place;
  const token = tokens[index];
  const lexicon = options.lexicon ?? {};
  if (token === undefined) return undefined;
  const written = Object.keys(lexicon)
    .filter(
      key =>
        key !== '' &&
        text.startsWith(key, token.from) &&
        !/^[\p{L}\p{N}]/u.test(text.slice(token.from + key.length)),
    )
    .sort((a, b) => b.length - a.length)[0];
  if (written === undefined) return undefined;
  const end = token.from + written.length;
  const takes = tokens.slice(index).filter(other => other.from < end).length;
  return { words: (lexicon[written] ?? '').split(/[\s-]+/u).flatMap(wordsOf), takes };
}

/** `V7's` and `V7s`: the reading of the word with the ending put back. */
function spellPossessive(place: Place): TokenReading | undefined {
  const match = /^(.*\w.*?)(['’]s|(?<=\d)s)$/u.exec(here(place));
  const token = place.tokens[place.index];
  if (match === null || token === undefined) return undefined;
  const [, stem = '', ending = ''] = match;
  const bare = { ...token, core: stem, to: token.from + stem.length };
  const reading = firstReading({ ...place, tokens: place.tokens.with(place.index, bare) });
  const last = reading?.words.at(-1);
  return last === undefined
    ? undefined
    : { words: [...(reading?.words.slice(0, -1) ?? []), last + ending.replace('’', "'")] };
}

/** Words that are spelled alike but read differently in music: bass, lead, close, live. `close` is the verb or the end of something, else near. */
function spellHomograph(place: Place): TokenReading | undefined {
  const word = here(place).toLowerCase();
  const isVerb = /^(to|we|i|they|you|will|and|then|chords|phrases|voices)$/u.test(wordBefore(place)) && !/^(to|by|together|relative)$/u.test(wordAfter(place)); // prettier-ignore
  const isNoun = /^(the|a|phrase)$/u.test(wordBefore(place)) && /^(|of|in|on|we|it|and|comes|is)$/u.test(wordAfter(place)); // prettier-ignore
  if (word === 'close' && (isVerb || isNoun || /^(the|in|on|with)$/u.test(wordAfter(place))))
    return { words: ['kloze'] };
  if (word === 'close') return { words: ['kloss'] };
  if (word === 'live' && /^(performance|music|recording|audience|playing)$/u.test(wordAfter(place)))
    return { words: ['lyve'] };
  const words = homographs.get(word);
  return words === undefined ? undefined : { words: phrase(words) };
}

function plainWords(token: Token): readonly string[] {
  return token.core.split(/[-‐‑–—/_]+/u).flatMap(wordsOf);
}

/** A word without accents in lower case; short words in capitals letter by letter, digits inside a word digit by digit. */
function wordsOf(text: string): readonly string[] {
  const ascii = text
    .replaceAll('’', "'")
    .replaceAll('ø', 'o')
    .replaceAll('ß', 'ss')
    .replaceAll('æ', 'ae')
    .normalize('NFD')
    .replace(/[^A-Za-z0-9']/gu, '');
  if (/^[B-HJ-Z]$|^[A-Z]{2,3}$|^[B-DF-HJ-NP-TV-Z]{4,5}$/u.test(ascii)) return [...ascii];
  return (ascii.match(/[A-Za-z']+|\d+/gu) ?? []).flatMap(part =>
    /^\d/u.test(part) ? digitsOf(part) : /[a-z]/iu.test(part) ? [part.toLowerCase()] : [],
  );
}

const digitsOf = (part: string): readonly string[] => spell(part).pieces.flatMap(piece => piece.words);
