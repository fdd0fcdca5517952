import { keyOfTarget, parallelOf, printKey, printRomanNumeral, relativeOf } from '../../harmony/index.js';
import type { Key, RomanNumeral } from '../../harmony/index.js';
import { transposed } from '../../score/index.js';
import { choice, map, optional, quiet, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { keyName, keyWithoutMode } from './key-name.js';
import { numeralToken } from './numeral.js';

type Relation = 'tonic' | 'relative' | 'parallel' | 'dominant' | 'subdominant';

/** A key by its name, or by how it stands to the home key. */
export type KeyRef = Key | { readonly relation: Relation } | { readonly on: RomanNumeral };

/** `the relative major`, `the dominant key`, `the tonic key`. */
export const relatedKey: Parser<KeyRef> = map(
  sequence(
    quiet(optional(word('the key of'))),
    word('the'),
    choice(
      map(
        sequence(
          wordsFor<Relation>([
            ['relative', 'relative'],
            ['parallel', 'parallel'],
            ['dominant', 'dominant'],
            ['subdominant', 'subdominant'],
          ]),
          optional(word('major', 'minor', 'key', 'major key', 'minor key')),
        ),
        ([relation]) => relation,
      ),
      map(word('tonic key', 'home key', 'original key', 'main key', 'tonic'), (): Relation => 'tonic'),
    ),
  ),
  ([, , relation]) => ({ relation }),
);

/** `D major`, `the relative major`, `the key of iv`: what cannot be a chord. */
export const unmistakableKey: Parser<KeyRef> = choice<KeyRef>(
  map(keyName, key => key),
  relatedKey,
  map(sequence(word('the key of'), numeralToken), ([, on]) => ({ on })),
);
/** The same, also by the numeral alone: `tonicizes iv`. */
export const keyReference: Parser<KeyRef> = choice<KeyRef>(
  unmistakableKey,
  map(numeralToken, on => ({ on })),
);

/** The same, also without its mode: where nothing else than a key can stand. */
export const anyKey: Parser<KeyRef> = choice<KeyRef>(keyReference, quiet(keyWithoutMode));

const inAnyKey = map(sequence(word('in'), anyKey), ([, key]) => key);
/** `in D major`, `in the relative major`, `in V`, where a sentence may leave it out. */
export const inKeyReference: Parser<KeyRef | undefined> = rule('InKey', () => optional(inAnyKey));

export const printKeyReference = (of: KeyRef): string =>
  'tonic' in of
    ? printKey(of)
    : 'on' in of
      ? `the key of ${printRomanNumeral(of.on)}`
      : `the ${of.relation} key`;

/** The key that is meant, where the home key is known; `undefined` where the numeral is no triad that could be a tonic. */
export function keyMeant(of: KeyRef, home: Key): Key | undefined {
  if ('tonic' in of) return of;
  if ('on' in of) return keyOfTarget(of.on, home);
  switch (of.relation) {
    case 'tonic':
      return home;
    case 'relative':
      return relativeOf(home);
    case 'parallel':
      return parallelOf(home);
    // The key of the dominant has the mode of the home key (Hutchinson, Modulation: closely related keys).
    case 'dominant':
      return { tonic: transposed(home.tonic, 1), mode: home.mode };
    case 'subdominant':
      return { tonic: transposed(home.tonic, -1), mode: home.mode };
  }
}

/** What a sentence says with its key by name; without one where it names none. */
export function withKeyMeant<T extends { readonly key?: KeyRef }>(
  says: T,
  home: Key,
): Omit<T, 'key'> & { readonly key?: Key } {
  const { key: named, ...rest } = says;
  const key = named === undefined ? undefined : keyMeant(named, home);
  return key === undefined ? rest : { ...rest, key };
}
