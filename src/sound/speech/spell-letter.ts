import { here, phrase, wordAfter, wordBefore } from './reading.js';
import type { Rule, TokenReading } from './reading.js';

/** Words after a capital A that make it the name of a note or key, whatever stands before. */
const afterLetter = new Set([
  'sharp', 'flat', 'natural', 'major', 'minor', 'is', 'and', 'to', 'in', 'as', 'or', 'rises', 'falls', 'resolves', 'sounds', 'chord', 'string', 'section',
]); // prettier-ignore
/** Words after which `A minor ...` may go on as an interval or a chord with an article in front. */
const intervalWords = new Set([
  'second',
  'third',
  'fourth',
  'fifth',
  'sixth',
  'seventh',
  'ninth',
  'chord',
  'triad',
  'key',
  'scale',
]);
const soundAlike: Readonly<Record<string, string>> = { see: 'C', be: 'B', the: 'E', eh: 'A' };

/** Verbs and words that follow the pronoun "I". */
const afterPronoun = new Set([
  'am', 'was', 'have', 'had', 'will', 'would', 'can', 'could', 'shall', 'should', 'may', 'might', 'must', 'do', 'did', 'hear', 'heard', 'play',
  'played', 'think', 'thought', 'like', 'love', 'know', 'knew', 'see', 'saw', 'say', 'said', 'call', 'called', 'want', 'wanted', 'mean', 'feel',
  'felt', 'find', 'found', 'use', 'suggest', 'prefer', 'read', 'write', 'wrote', 'take', 'ask', 'believe', 'hope', 'never', 'always', 'also',
]); // prettier-ignore
const beforeNumeral = new Set([
  'the',
  'a',
  'an',
  'is',
  'of',
  'on',
  'to',
  'from',
  'with',
  'tonic',
  'chord',
  'numeral',
  'in',
  'by',
  'before',
  'after',
  'no',
  '→',
  '->',
  '–',
  '-',
]);
const afterNumeral = new Set([
  'chord',
  'chords',
  'triad',
  'in',
  'to',
  'is',
  'of',
  '→',
  '->',
  '–',
  '-',
  'returns',
  'arrives',
  'follows',
]);
const numeralNeighbour = /^[#♯b♭]?([ivIV]{2,}|[Vv])[\d°oø+/]*$/u;

/** Capital A: the note, or the article that opens a sentence. */
export const spellLetterA: Rule = (place): TokenReading | undefined => {
  if (here(place) !== 'A') return undefined;
  const token = place.tokens[place.index];
  const next = wordAfter(place);
  // No article stands before a comma.
  if (token?.startsSentence !== true || token.pause === 'short') return { words: ['A'] };
  if (!afterLetter.has(next)) return next === '' ? { words: ['A'] } : { words: ['a'] };
  const afterNext = place.tokens[place.index + 2]?.core.toLowerCase() ?? '';
  if ((next === 'major' || next === 'minor') && intervalWords.has(afterNext)) {
    return { words: ['a'], doubt: { readAs: 'the article', couldBe: `the letter: A ${next}` } };
  }
  return { words: ['A'] };
};

/** I: the numeral one, or the pronoun. */
export const spellLetterI: Rule = (place): TokenReading | undefined => {
  const text = here(place);
  if (text !== 'I' && text !== 'i') return undefined;
  const numeral = text === 'I' ? ['one'] : ['one', ',', 'minor'];
  const [before, after] = [wordBefore(place), wordAfter(place)];
  if (afterPronoun.has(after)) return { words: ['i'] };
  const beside = [place.tokens[place.index - 1]?.core ?? '', place.tokens[place.index + 1]?.core ?? ''];
  if (
    text === 'i' ||
    beforeNumeral.has(before) ||
    afterNumeral.has(after) ||
    beside.some(core => numeralNeighbour.test(core))
  )
    return { words: numeral };
  const stands = place.tokens.length === 1;
  return stands
    ? { words: numeral }
    : { words: ['i'], doubt: { readAs: 'the pronoun', couldBe: 'the numeral one' } };
};

/** Single letters B to G: names of notes; with a pause where the word before sounds the same ("see C"). */
export const spellOtherLetter: Rule = (place): TokenReading | undefined => {
  const text = here(place);
  const letter = /^[B-GH]$/u.test(text) ? text : /^[bcdeg]$/u.test(text) ? text.toUpperCase() : undefined;
  if (letter === undefined) return undefined;
  return { words: soundAlike[wordBefore(place)] === letter ? [',', letter] : [letter] };
};

const functions: Readonly<Record<string, string>> = {
  T: 'tonic',
  PD: 'predominant',
  D: 'dominant',
  S: 'subdominant',
};

/** Functions in a row: `T PD D`. A single D stays the note. */
export const spellFunction: Rule = (place): TokenReading | undefined => {
  const word = functions[here(place)];
  if (word === undefined) return undefined;
  const isFunction = (by: number): boolean => {
    const core = place.tokens[place.index + by]?.core ?? '';
    return (
      functions[core] !== undefined ||
      (/^[-–—→]|->$/u.test(core) && functions[place.tokens[place.index + 2 * by]?.core ?? ''] !== undefined)
    );
  };
  return here(place) === 'T' || here(place) === 'PD' || isFunction(-1) || isFunction(1)
    ? { words: phrase(word) }
    : undefined;
};
