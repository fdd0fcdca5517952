import { choice, map, quiet, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';

/** How the verb of a sentence is written. */
export interface VerbForm {
  readonly plural: boolean;
  readonly negated: boolean;
}

/** A verb as read: whether the sentence denies it. */
export type Verb = Parser<{ readonly negated: boolean }>;

const affirmed = () => ({ negated: false });
const denied = () => ({ negated: true });

/** `is`, `are`, `is not`, `aren't`. */
export const be: Verb = choice(
  map(word('is', 'are'), affirmed),
  quiet(map(word('is not', "isn't", 'are not', "aren't"), denied)),
);

/** `has`, `have`, `does not have`. */
export const have: Verb = choice(
  map(word('has', 'have', 'contains', 'contain'), affirmed),
  quiet(
    map(
      word(
        'does not have',
        "doesn't have",
        'do not have',
        "don't have",
        'does not contain',
        'do not contain',
      ),
      denied,
    ),
  ),
);

/** `has no`, `have no`: the denial of `has`. */
export const haveNo: Verb = map(word('has no', 'have no', 'contains no', 'contain no'), denied);

/** Any other verb, by its two forms: `modulates`, `modulate`. */
export const verb = (singular: string, plural: string): Verb =>
  choice(
    map(word(singular, plural), affirmed),
    quiet(
      map(word(`does not ${plural}`, `doesn't ${plural}`, `do not ${plural}`, `don't ${plural}`), denied),
    ),
  );

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
