import { claimWords } from './claim-words.js';
import type { KnownScore } from './claim-words.js';
import { keysAt, valuesAt } from './schema-words.js';
import { yamlPlace } from './yaml-place.js';
import type { YamlPlace } from './yaml-place.js';

export interface Offered {
  /** What is written. */
  readonly label: string;
  readonly detail?: string;
}

/** What can stand at the cursor, and how many characters of it are already there. */
export interface Completion {
  readonly typed: number;
  readonly words: readonly Offered[];
}

const offered = ({ word, about }: { readonly word: string; readonly about?: string }): Offered => ({
  label: word,
  ...(about === undefined ? {} : { detail: about }),
});

/** The claim that is being written: in braces behind marked words, or as a value of its own. */
function claimAt({ path, what, written }: YamlPlace): string | undefined {
  const inBraces = /\]\{(?<claim>[^{}]*)$/u.exec(written)?.groups?.['claim'];
  if (inBraces !== undefined) return inBraces;
  const [last, before] = [path.at(-1), path.at(-2)];
  const isClaim = last === 'claim' || last === 'because' || (last === '-' && before === 'claims');
  return isClaim && what !== 'block text' ? written.replace(/^["']/u, '') : undefined;
}

const begins = (words: readonly Offered[], written: string): readonly Offered[] => {
  const start = written.toLowerCase();
  return words.filter(({ label }) => label.toLowerCase().startsWith(start));
};

/** Completes the last word of a claim; its former ones decide what can follow. */
function completeClaim(claim: string, score: KnownScore): Completion {
  const word = /[^\s-]*$/u.exec(claim)?.[0] ?? '';
  const before = claim.slice(0, claim.length - word.length);
  return { typed: word.length, words: begins(claimWords(before, score).map(offered), word) };
}

/** Completes bars: one, or the last one of a range. */
function completeBars(written: string, score: KnownScore): Completion {
  const [, first, last] = /^(?:(\w+)-)?(\w*)$/u.exec(written) ?? [];
  if (last === undefined) return { typed: 0, words: [] };
  const after = first === undefined ? 0 : score.bars.indexOf(first) + 1;
  return {
    typed: last.length,
    words: begins(
      score.bars.slice(after).map(label => ({ label })),
      last,
    ),
  };
}

/**
 * Words that can stand at the end of a text: keys and values of the lesson's format, bars and voices of the score, and the words with
 * which a claim goes on. `undefined` where there is nothing to say, as within a narration.
 */
export function wordsAt(before: string, score: KnownScore): Completion | undefined {
  const place = yamlPlace(before);
  const { path, what, written } = place;
  const claim = claimAt(place);
  const last = path.at(-1) ?? '';
  const complete = (words: readonly Offered[]): Completion => ({
    typed: written.length,
    words: begins(words, written),
  });
  const keys =
    what === 'key' ? keysAt(path).map(({ word, ...rest }) => offered({ word: `${word}: `, ...rest })) : [];
  if (claim !== undefined) {
    const inClaim = completeClaim(claim, score);
    return written === claim && inClaim.typed === written.length
      ? { ...inClaim, words: [...inClaim.words, ...begins(keys, written)] }
      : inClaim;
  }
  if (what === 'block text') return undefined;
  if (what === 'value' && (last === 'bars' || last === 'play')) return completeBars(written, score);
  if (what === 'value' && last === 'voice' && path.includes('play'))
    return complete(score.voices.map(label => ({ label })));
  const values = valuesAt(path).map(offered);
  const words = [...keys, ...(what === 'value' || last === '-' ? values : [])];
  return words.length === 0 ? undefined : complete(words);
}
