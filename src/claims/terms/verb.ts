import { choice, map, mark, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';

/** How the verb of a sentence is written. */
export interface VerbForm {
  readonly plural: boolean;
  readonly negated: boolean;
}

/** A verb as read: whether the sentence denies it. */
export type Verb = Parser<{ readonly negated: boolean }>;

type Words = readonly [string, ...string[]];

/** Words beside a verb that change nothing that could be checked. */
const adverb = rule('Adverb', () =>
  quiet(
    optional(
      word('also', 'briefly', 'clearly', 'exactly', 'actually', 'simply', 'then', 'now', 'again', 'both'),
    ),
  ),
);

/** A verb is a rule, so that the many families that share one read it once. `sign`: what a note to oneself has in its place. */
function verbOf(name: string, affirmed: Words, denied: Words, sign?: Parser<string>): Verb {
  const parser = map(
    sequence(
      adverb,
      choice(
        ...(sign === undefined ? [] : [quiet(map(sign, () => ({ negated: false })))]),
        map(word(...affirmed), () => ({ negated: false })),
        quiet(map(word(...denied), () => ({ negated: true }))),
      ),
      adverb,
    ),
    ([, read]) => read,
  );
  return rule(name, () => parser);
}

/** `is`, `are`, `is not`, `aren't`; as a note to oneself `bar 4: V65`, `bar 4 = V65`. */
export const be = verbOf('Be', ['is', 'are'], ['is not', "isn't", 'are not', "aren't"], mark(':', '='));

/** `has`, `have`, `does not have`. */
export const have = verbOf(
  'Have',
  [
    'has',
    ...['have', 'contains', 'contain', 'includes', 'include', 'uses', 'use', 'features', 'feature'],
    // `bar 5 brings a half cadence`, `we hear a V7 in bar 4`.
    ...['brings', 'bring', 'presents', 'present', 'shows', 'show', 'offers', 'offer', 'gives', 'give'],
    ...['gives us', 'give us', 'hear', 'can hear', 'hears', 'get', 'gets', 'see', 'can see', 'sees'],
  ],
  [
    'does not have',
    "doesn't have",
    'do not have',
    "don't have",
    ...(['contain', 'include', 'use'] as const).flatMap(each => [
      `does not ${each}`,
      `doesn't ${each}`,
      `do not ${each}`,
      `don't ${each}`,
    ]),
  ],
);

/** `has no`, `have no`: the denial of `has`. */
const hasNo = map(word('has no', 'have no', 'contains no', 'contain no', 'uses no', 'use no'), () => ({
  negated: true,
}));
export const haveNo: Verb = rule('HaveNo', () => hasNo);

const known = new Map<string, Verb>();

/** Any other verb, by its two forms: `modulates`, `modulate`. */
export function verb(singular: string, plural: string): Verb {
  const made =
    known.get(singular) ??
    verbOf(
      singular.replace(/(?:^|[ -])(\p{L})/gu, (_, first: string) => first.toUpperCase()),
      [singular, plural],
      [`does not ${plural}`, `doesn't ${plural}`, `do not ${plural}`, `don't ${plural}`],
    );
  known.set(singular, made);
  return made;
}

const auxiliary = ({ plural }: VerbForm): string => (plural ? 'do not' : 'does not');

export const printBe = ({ plural, negated }: VerbForm): string =>
  `${plural ? 'are' : 'is'}${negated ? ' not' : ''}`;

export const printHave = (form: VerbForm): string =>
  form.negated ? `${auxiliary(form)} have` : form.plural ? 'have' : 'has';

/** `has a cross relation`, `has no cross relation`; `article` is `a`, `an` or nothing. */
export function printHas(form: VerbForm, article: string, noun: string): string {
  const has = form.plural ? 'have' : 'has';
  if (form.negated) return `${has} no ${noun}`;
  return article === '' ? `${has} ${noun}` : `${has} ${article} ${noun}`;
}

export const printVerb = (singular: string, plural: string, form: VerbForm): string =>
  form.negated ? `${auxiliary(form)} ${plural}` : form.plural ? plural : singular;

/** `reaches V`, `arrives at a half cadence`: what a place comes to is something that it has. */
export const reach: Verb = rule('Reach', () =>
  choice(
    verb('reaches', 'reach'),
    ...['arrives at', 'arrives on', 'lands on', 'comes to', 'gets to'].map(each =>
      verb(each, each.replace('s ', ' ')),
    ),
  ),
);

/** How a line or a passage begins or ends. */
export interface Edge {
  readonly how: 'begins' | 'ends';
  readonly negated: boolean;
}

/** `starts on`, `ends with`. */
export const startsOrEnds: Parser<Edge> = rule('StartsOrEnds', () =>
  choice(
    ...(['on', 'with'] as const).flatMap(preposition =>
      (
        [
          ['begins', 'begin', 'begins'],
          ['starts', 'start', 'begins'],
          ['opens', 'open', 'begins'],
          ['concludes', 'conclude', 'ends'],
          ['ends', 'end', 'ends'],
          ['closes', 'close', 'ends'],
          ['finishes', 'finish', 'ends'],
        ] as const
      ).map(([singular, plural, how]) =>
        map(verb(`${singular} ${preposition}`, `${plural} ${preposition}`), ({ negated }) => ({
          how,
          negated,
        })),
      ),
    ),
  ),
);
