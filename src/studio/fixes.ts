/** Help that names the words to write in the place of those that were found; other help is advice. */
const replacement = [
  /^did you mean `(?<words>[^`]+)`\?$/u,
  /^write `(?<words>[^`]+)`$/u,
  /^write the number alone: `(?<words>[^`]+)`$/u,
  /^put it in double quotes to have it as a text: `(?<words>[^`]+)`$/u,
];
/** In a claim more help follows: an example of a sentence, which is not about the bars of this one. */
const inClaim = /^did you mean `(?<words>[^`]+)`\?/u;

/** Words that mend a finding where they take the place of those that it underlines; none where its help is advice. */
export function fixesOf(help: string | undefined, isInClaim: boolean): readonly string[] {
  const patterns = isInClaim ? [...replacement, inClaim] : replacement;
  const found = patterns.map(pattern => pattern.exec(help ?? '')?.groups?.['words']);
  return found.filter(words => words !== undefined).slice(0, 1);
}
