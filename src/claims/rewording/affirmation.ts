/** Where more than what is said is denied, or less: `not until bar 5`, `not all`, `not only`. */
const otherScope =
  /\b(?:until|till|before|only|just|all|every|each|both|but|except|unless|yet|always|anymore|longer|neither|nor|either|no|none|nothing|never|more|most|less|than|because|if|and|or|so|as)\b|,|;/iu;

/** `drop` as it stands behind `the bass`: `drops`. */
function ofOne(verb: string): string {
  if (verb === 'have') return 'has';
  if (/(?:s|sh|ch|x|z|o)$/u.test(verb)) return `${verb}es`;
  return /[^aeiou]y$/u.test(verb) ? `${verb.slice(0, -1)}ies` : `${verb}s`;
}

const denials: readonly (readonly [said: RegExp, affirmed: (...found: string[]) => string])[] = [
  [/\b(?:does not|doesn't) (\p{Ll}+)/u, (_, verb) => ofOne(verb)],
  [/\b(?:do not|don't) (\p{Ll}+)/u, (_, verb) => verb],
  [/\b(is|are|has|have|can)(?: not|n't)\b/u, (_, verb) => verb],
  [/\bcannot\b/u, () => 'can'],
];

/** What a sentence denies, where it denies one thing and nothing besides: `the bass does not drop out in bar 9`. */
export function affirmation(text: string): string | undefined {
  for (const [said, affirmed] of denials) {
    const found = text.match(new RegExp(said, 'gu'));
    if (found === null) continue;
    const plain = text.replace(said, affirmed);
    return found.length > 1 || otherScope.test(plain) || /n['’]t\b|\bnot\b/u.test(plain) ? undefined : plain;
  }
  return undefined;
}
