import type { Speech } from './model.js';

/** What a pause after a word weighs, in letters: a comma about one short word, the end of a sentence about two. */
const pauseWeight = (word: string): number =>
  /[.!?]["')\]]*$/u.test(word) ? 8 : /[,;:]["')\]]*$/u.test(word) ? 4 : 0;

/** Words of a shown text with their offsets; a dash on its own is no word. */
export function shownWords(
  text: string,
): readonly { readonly text: string; readonly from: number; readonly to: number }[] {
  return [...text.matchAll(/\S+/gu)]
    .filter(match => /[\p{L}\p{N}]/u.test(match[0]))
    .map(match => ({ text: match[0], from: match.index, to: match.index + match[0].length }));
}

/**
 * Speech as long as its words at `pace` words a minute, for drafts without a voice. The words share the time by their length and by
 * the pauses that punctuation asks for. A pace that is not positive counts as 150, the ordinary rate of speech.
 */
export function estimateSpeech(text: string, pace: number): Speech {
  const words = shownWords(text);
  const seconds = (words.length * 60) / (pace > 0 ? pace : 150);
  const spoken = words.map(word => word.text.length + 2);
  const total = words.reduce((sum, word, index) => sum + (spoken[index] ?? 0) + pauseWeight(word.text), 0);
  let at = 0;
  return {
    seconds,
    words: words.map((word, index) => {
      const start = (at / total) * seconds;
      const end = ((at + (spoken[index] ?? 0)) / total) * seconds;
      at += (spoken[index] ?? 0) + pauseWeight(word.text);
      return { from: word.from, to: word.to, start, end };
    }),
  };
}
