import { statement } from '../statement.js';
import { negation } from '../negation.js';
import {
  closelyRelatedKeys,
  degreeTone,
  parallelOf,
  printKey,
  relativeOf,
  sameKey,
  signatureOf,
} from '../../harmony/index.js';
import type { Key } from '../../harmony/index.js';
import type { Claim, Finding, Subject } from '../claim.js';
import { family } from '../family.js';
import { choice, map, optional, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { keyByName, keyName } from '../terms/key-name.js';
import { be, printBe } from '../terms/verb.js';
import { transposed } from '../../score/index.js';

const relations = [
  'relative',
  'parallel',
  'dominant',
  'subdominant',
  'supertonic',
  'mediant',
  'submediant',
  'closely related',
  'chromatic mediant',
] as const;
type Relation = (typeof relations)[number];
const degrees = { supertonic: 2, mediant: 3, submediant: 6 } as const;

/** How one key stands to another. */
export interface KeyRelationSays {
  readonly relation: Relation;
  /** The home key where none is named. */
  readonly of?: Key;
}

/** A key as the subject of a sentence. */
export const keySubject: Parser<Subject<Key>> = map(keyName, key => ({
  content: { key },
  plural: false,
  print: () => printKey(key),
  resolve: () => ({ kind: 'found', subject: key }),
  neighbours: () => [],
}));

const ofKey = map(sequence(word('of', 'to'), keyByName), ([, of]) => of);
const keyNoun = word('key', 'major', 'minor', 'major key', 'minor key');
const relatedTo = wordsFor<Relation>([
  ['relative', 'relative'],
  ['parallel', 'parallel'],
  ['dominant', 'dominant'],
  ['subdominant', 'subdominant'],
  ['supertonic', 'supertonic'],
  ['mediant', 'mediant'],
  ['submediant', 'submediant'],
]);
const complement: Parser<KeyRelationSays> = choice<KeyRelationSays>(
  map(sequence(optional(word('the', 'a')), relatedTo, optional(keyNoun), ofKey), ([, relation, , of]) => ({
    relation,
    of,
  })),
  map(
    sequence(
      optional(word('the', 'a')),
      wordsFor<Relation>([
        ['closely related', 'closely related'],
        ['chromatic mediant', 'chromatic mediant'],
      ]),
      optional(keyNoun),
      ofKey,
    ),
    ([, relation, , of]) => ({ relation, of }),
  ),
  map(sequence(word('the'), relatedTo, keyNoun), ([, relation]) => ({ relation })),
);

function isRelated(key: Key, relation: Relation, of: Key): boolean {
  switch (relation) {
    case 'relative':
      return sameKey(key, relativeOf(of));
    case 'parallel':
      return sameKey(key, parallelOf(of));
    case 'dominant':
      return key.tonic === transposed(of.tonic, 1);
    case 'subdominant':
      return key.tonic === transposed(of.tonic, -1);
    // ii, iii and vi of a major key, III and VI of a minor one: closely related keys of the other mode.
    case 'supertonic':
    case 'mediant':
    case 'submediant':
      return (
        key.mode !== of.mode &&
        key.tonic === degreeTone(of, degrees[relation]) &&
        !(relation === 'supertonic' && of.mode === 'minor')
      );
    // The same mode, tonics a third apart, one key not within the other's scale (Open Music Theory, Chromatic mediants).
    case 'chromatic mediant':
      return key.mode === of.mode && [3, 4].includes(Math.abs(key.tonic - of.tonic));
    case 'closely related':
      return closelyRelatedKeys(of).some(each => sameKey(each, key));
  }
}

const signature = (key: Key): string => {
  const fifths = signatureOf(key);
  const signs = Math.abs(fifths);
  return fifths === 0
    ? 'no accidentals'
    : `${String(signs)} ${fifths > 0 ? 'sharp' : 'flat'}${signs === 1 ? '' : 's'}`;
};

/** Relations of keys: claim D5 of the trade. Closely related: signatures that differ by one accidental at most (Hutchinson, Modulation). */
export const keyRelationFamily = family<Key, KeyRelationSays>({
  name: 'key relation',
  examples: ['D major is the relative key of B minor', 'E minor is closely related to G major'],
  phrases: [[be, complement]],
  print: ({ relation, of }, form) => {
    const is = printBe(form);
    const named = (preposition: string): string =>
      of === undefined ? '' : ` ${preposition} ${printKey(of)}`;
    if (relation === 'chromatic mediant') return `${is} a chromatic mediant${named('of')}`;
    if (relation === 'closely related') return `${is} closely related${named('to')}`;
    return `${is} the ${relation} key${named('of')}`;
  },
  check: (key, says, context, make): Finding<Key> => {
    const of = says.of ?? context.home;
    const holds = isRelated(key, says.relation, of);
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C0441' : 'C0442',
      reason: sameKey(key, of)
        ? 'a key is not related to itself'
        : `${printKey(key)} has ${signature(key)}, ${printKey(of)} ${signature(of)}`,
      evidence: [],
      instead: () => relations.map(relation => make({ ...says, relation })),
    };
  },
});

/** `B minor and D major are relative keys`: a relation that goes both ways. */
export const relatedKeys: Parser<Claim> = rule('RelatedKeys', () =>
  map(
    sequence(
      keySubject,
      word('and'),
      keyName,
      be,
      wordsFor<Relation>([
        ['relative', 'relative keys', 'relatives', 'relative'],
        ['parallel', 'parallel keys', 'parallel'],
        ['closely related', 'closely related', 'closely related keys'],
        ['chromatic mediant', 'chromatic mediants'],
      ]),
    ),
    ([key, , of, { negated }, relation]) => {
      const says = keyRelationFamily.make({ relation, of });
      return statement(key, negated ? negation(says) : says);
    },
  ),
);
