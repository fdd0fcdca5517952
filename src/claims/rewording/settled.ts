const ordinals = [
  'first',
  'second',
  'third',
  'fourth',
  'fifth',
  'sixth',
  'seventh',
  'eighth',
  'ninth',
] as const;
const numbers = [
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
] as const;

const bar = String.raw`(?:bars?|measures?|mm?\.|bb?\.) ?\d+[a-z]?(?![\p{L}\d-])`;
/** What more beats are said with: `beats 1 and 3 of bar 5`, `from beat 1 to beat 3 of bar 5`. */
const notOneOfSeveral = String.raw`(?<!(?:and|or|to|from|until|till|through|,|-|–) (?:the )?)`;

const inDigits = (words: readonly string[], word: string | undefined): string =>
  String(words.indexOf(word?.toLowerCase() ?? '') + 1);

/** Ways of naming a bar and a beat, written as the grammar writes them: `bar 5 beat 3`. */
const settlings: readonly (readonly [said: RegExp, meant: (...found: string[]) => string])[] = [
  [/[’‘]/gu, () => "'"],
  [/\b(no|any|without) ([A-G][- ](?:flat|sharp|natural))s\b/giu, (_, no, note) => `${no} ${note}`],
  [
    new RegExp(
      `\\b((?:bars?|measures?|beats?|mm?\\.|scale[- ]degrees?|degrees?)) (${numbers.join('|')})(?![\\p{L}\\d-])`,
      'giu',
    ),
    (_, thing, number) => `${thing} ${inDigits(numbers, number)}`,
  ],
  [
    new RegExp(
      `\\b((?:bars?|measures?|beats?) \\d+ (?:to|and|through|-) )(${numbers.join('|')})(?![\\p{L}\\d-])(?! (?:bars?|beats?|notes?|chords?|measures?)\\b)`,
      'giu',
    ),
    (_, start, number) => `${start}${inDigits(numbers, number)}`,
  ],
  [
    new RegExp(
      `${notOneOfSeveral}\\b(?:(?:on|in|at) )?(?:the )?(${ordinals.join('|')}|1st|2nd|3rd|4th|5th|6th) beat (?:of|in) (?:the )?(${bar})`,
      'giu',
    ),
    (found, beat, place) =>
      `${/^(?:on|in|at) /iu.test(found) ? 'in ' : ''}${place} beat ${/^\d/u.test(beat) ? beat.charAt(0) : inDigits(ordinals, beat)}`,
  ],
  [
    new RegExp(
      `${notOneOfSeveral}\\b((?:on|in|at|over) )?(?:the )?(?:downbeat|down-beat|strong beat 1) (?:of|in) (${bar})`,
      'giu',
    ),
    (_, link, place) => `${link === undefined ? '' : 'in '}${place} beat 1`,
  ],
  [
    new RegExp(
      `${notOneOfSeveral}\\b((?:on|in|at) )?beat (\\d+(?:\\.\\d+)?(?: \\d/\\d)?) (?:of|in) (${bar})`,
      'giu',
    ),
    (_, link, beat, place) => `${link === undefined ? '' : 'in '}${place} beat ${beat}`,
  ],
  [
    new RegExp(`(${bar}),? (?:on )?(?:the )?(${ordinals.join('|')}|1st|2nd|3rd|4th) beat\\b`, 'giu'),
    (_, place, beat) => `${place} beat ${/^\d/u.test(beat) ? beat.charAt(0) : inDigits(ordinals, beat)}`,
  ],
  [new RegExp(`(${bar}),? (?:on |at )?beat (\\d)`, 'giu'), (_, place, beat) => `${place} beat ${beat}`],
  [new RegExp(`\\b(?:on|at) (${bar} beat \\d)`, 'giu'), (_, place) => `in ${place}`],
];

const firstWords = /^(?:In|On|At|By|We|It|No|To|If|Is|There|The|An)(?=\s)|^\p{Lu}(?=\p{Ll}{2,})/u;
/** `A` before a word that no note is called with. */
const firstArticle =
  /^A(?= (?!(?:major|minor|sharp|flat|natural|dominant|diminished|augmented|half|is|are|has|in|on|of|and|or|to|moves|goes|resolves|falls|rises)\b)\p{Ll})/u;

/**
 * A sentence with its white space, its first word and its beats as the grammar writes them; nothing else that it says is touched.
 * `The bass` becomes `the bass`: but for notes, which are single letters, a sentence may begin with a capital.
 */
export function settled(text: string): string {
  const plain = text
    .replace(/\s+/gu, ' ')
    .trim()
    .replace(/[.!]$/u, '')
    .replace(firstWords, first => first.toLowerCase())
    .replace(firstArticle, 'a');
  return settlings.reduce((sentence, [said, meant]) => sentence.replace(said, meant), plain);
}
