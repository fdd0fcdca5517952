import { readClaim } from '../claims/index.js';
import type { ClaimEntry } from '../lesson/index.js';
import type { Fix } from './checked.js';

/** Help that names the words to write in the place of those that were found; other help is advice. */
const replacement = [
  /^did you mean `(?<words>[^`]+)`\?$/u,
  /^write `(?<words>[^`]+)`$/u,
  /^write the number alone: `(?<words>[^`]+)`$/u,
  /^put it in double quotes to have it as a text: `(?<words>[^`]+)`$/u,
];
/** In a claim more help follows: an example of a sentence, which is not about the bars of this one. */
const inClaim = /^did you mean `(?<words>[^`]+)`\?/u;

const wordsIn = (help: string | undefined, patterns: readonly RegExp[]): string | undefined =>
  patterns.map(pattern => pattern.exec(help ?? '')?.groups?.['words']).find(words => words !== undefined);

/** What is needed of a claim to write over it: its words, and where each of them stands in the text. */
export type WrittenClaim = Pick<ClaimEntry, 'text' | 'offsets'>;

const startOf = ({ offsets }: WrittenClaim): number => offsets[0] ?? 0;
const endOf = ({ offsets, text }: WrittenClaim): number => (offsets[text.length - 1] ?? 0) + 1;
const isRead = (sentence: string): boolean => !('problem' in readClaim(sentence));

/** A mapping on one line, up to the value that begins behind it: a comma or a brace in that value would end it. */
const inFlow = /[{[,][^\n]*:\s*$/u;

/** A sentence as it can stand where a claim begins: what ends a value of YAML there is escaped, or put in quotes. */
function asWritten(words: string, text: string, from: number): string {
  const quote = text[from - 1];
  if (quote === '"') return JSON.stringify(words).slice(1, -1);
  if (quote === "'") return words.replaceAll("'", "''");
  const line = text.slice(text.lastIndexOf('\n', from - 1) + 1, from);
  return /[,[\]{}]/u.test(words) && inFlow.test(line) ? JSON.stringify(words) : words;
}

/** Another sentence for a whole claim. */
export function claimFix(claim: WrittenClaim, words: string, text: string): Fix {
  const from = startOf(claim);
  return { from, to: endOf(claim), words, insert: asWritten(words, text, from) };
}

/**
 * The change that the help of a finding proposes; `undefined` where its help is advice. In a claim it is a word for the one that is
 * underlined, or a sentence for the whole claim: whichever of the two makes a sentence that can be read.
 * @param place of the underlined words in the text
 * @param claim that the place lies in
 */
export function fixOf(
  help: string | undefined,
  place: { readonly from: number; readonly to: number },
  claim: WrittenClaim | undefined,
  text: string,
): Fix | undefined {
  const words = wordsIn(help, claim === undefined ? replacement : [...replacement, inClaim]);
  if (words === undefined) return undefined;
  const here = { ...place, words, insert: words };
  if (claim === undefined) return here;
  const inner = claim.offsets.slice(0, claim.text.length);
  const before = inner.filter(offset => offset < place.from).length;
  const behind = inner.filter(offset => offset < place.to).length;
  const mended = claim.text.slice(0, before) + words + claim.text.slice(behind);
  return isRead(words) && !isRead(mended) ? claimFix(claim, words, text) : here;
}
