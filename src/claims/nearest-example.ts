import { exampleSentences } from './examples.js';
import { turns } from './rewording/index.js';
import { wordDistance } from './word-distance.js';

const wordsOf = (sentence: string): readonly string[] =>
  sentence
    .toLowerCase()
    .split(/[\s,;:-]+/u)
    .filter(word => word !== '')
    .slice(0, 40)
    .map(word => word.slice(0, 24));

/** Words that say where and not what: two sentences are not alike because both name a bar. */
const emptyWord =
  /^(?:bars?|measures?|mm?\.?|beats?|the|an?|is|are|has|have|of|in|on|to|and|with|from|\d+[a-z]?)$/u;
const weightOf = (word: string): number => (emptyWord.test(word) ? 0.2 : 1);
const weigh = (words: readonly string[]): number => words.reduce((sum, word) => sum + weightOf(word), 0);

/** How well a word stands for another: 1 the same, 0 nothing in common. Numbers stand for each other. */
function likeness(a: string, b: string): number {
  if (/^\d/u.test(a) && /^\d/u.test(b)) return 1;
  const distance = wordDistance(a, b) / Math.max(a.length, b.length);
  // Of short words each letter counts: `bass` is no `bars`.
  return distance === 0 || (distance <= 0.34 && Math.max(a.length, b.length) > 4) ? 1 - distance : 0;
}

/** Likeness of two sentences: words of the one found in the other, in any order, against the length of both. */
function sentenceLikeness(a: readonly string[], b: readonly string[]): number {
  const shared = a.reduce(
    (sum, word) => sum + weightOf(word) * Math.max(0, ...b.map(other => likeness(word, other))),
    0,
  );
  return (2 * shared) / (weigh(a) + weigh(b));
}

/** The sentence of the reference that looks most like what the author wrote, where one does. */
export function nearestExample(text: string): string | undefined {
  const words = wordsOf(text);
  if (words.every(word => emptyWord.test(word))) return undefined;
  let best: string | undefined;
  let highest = 0.6;
  for (const example of exampleSentences) {
    const value = sentenceLikeness(words, wordsOf(example));
    if (value > highest) [best, highest] = [example, value];
  }
  return best;
}

const auxiliaries = [
  'do',
  'does',
  'did',
  'was',
  'were',
  'will',
  'would',
  'can',
  'could',
  'may',
  'might',
  'must',
];
let knownWords: ReadonlySet<string> | undefined;

/** Whether a word stands in a sentence of the reference or in a turn of phrase: then it is no slip of the pen and no word of taste, wherever it stands. */
export const isKnownWord = (word: string): boolean =>
  (knownWords ??= new Set([
    ...auxiliaries,
    ...exampleSentences.flatMap(wordsOf),
    ...turns.flat().flatMap(turn => turn.match(/\p{L}+/gu) ?? []),
  ])).has(word.toLowerCase());

/** The one of the expected words (written in backticks) that a misspelt word comes close to. */
export function nearestWord(written: string, expected: readonly string[]): string | undefined {
  if (written.length < 3 || written.length > 24 || isKnownWord(written)) return undefined;
  const distance = (word: string): number => wordDistance(written.toLowerCase(), word.split(' ')[0] ?? word);
  return expected
    .flatMap(each => /^`([\p{L} ]+)`$/u.exec(each)?.[1] ?? [])
    .find(word => distance(word) > 0 && distance(word) <= (written.length < 6 ? 1 : 2));
}
