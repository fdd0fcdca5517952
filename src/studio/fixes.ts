/** Help that names the words to write in the place of those that were found; other help is advice. */
const replacement = [
  /^did you mean `(?<words>[^`]+)`\?$/u,
  /^write `(?<words>[^`]+)`$/u,
  /^write the number alone: `(?<words>[^`]+)`$/u,
  /^put it in double quotes to have it as a text: `(?<words>[^`]+)`$/u,
];
/** In a claim more help follows: an example of a sentence, which is not about the bars of this one. */
const inClaim = /^did you mean `(?<words>[^`]+)`\?/u;

/** A claim around a finding: its words before and after those that the finding underlines. */
export interface AroundFinding {
  readonly before: string;
  readonly after: string;
}

/** What of a whole mended sentence takes the place of the underlined words; all of it where it is no sentence but those words alone. */
const underlinedPart = (words: string, { before, after }: AroundFinding): string =>
  words.startsWith(before) && words.endsWith(after)
    ? words.slice(before.length, words.length - after.length)
    : words;

/** Words that mend a finding where they take the place of those that it underlines; none where its help is advice. */
export function fixesOf(help: string | undefined, claim: AroundFinding | undefined): readonly string[] {
  const patterns = claim === undefined ? replacement : [...replacement, inClaim];
  const found = patterns.map(pattern => pattern.exec(help ?? '')?.groups?.['words']);
  return found
    .filter(words => words !== undefined)
    .slice(0, 1)
    .map(words => (claim === undefined ? words : underlinedPart(words, claim)));
}
