import { compare } from '../../score/index.js';
import type { Claim, Finding, Subject } from '../claim.js';
import { family } from '../family.js';
import { thingOccurs } from './occurrence.js';
import { choice, map, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Range } from '../model.js';
import { printPlace, scope } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { sayMoment } from '../place/say-moment.js';
import { rangeOf } from '../range-of.js';
import { statement } from '../statement.js';
import { contentOfThing, occurrencesOf, printThing, thing } from '../subjects/thing.js';
import type { Thing } from '../subjects/thing.js';
import { keyReference, printKeyReference } from '../terms/key-reference.js';
import type { KeyRef } from '../terms/key-reference.js';
import { nonChordTone, suspensionFigure } from '../terms/non-chord-tone.js';
import { count } from '../terms/number.js';
import { be, printBe } from '../terms/verb.js';

/** All things of a kind in a place, and how many are meant where that is said. */
interface AllOf {
  readonly thing: Thing;
  readonly range: Range;
  readonly both: boolean;
}

/** What each of them is besides. */
type EachSays = { readonly figure: string } | { readonly key: KeyRef };

const narrowed = (of: Thing, says: EachSays): Thing | undefined => {
  if ('figure' in says)
    return of.kind === 'tone' ? { ...of, says: { ...of.says, figure: says.figure } } : undefined;
  return of.kind === 'cadence' ? { ...of, key: says.key } : undefined;
};

const allOf = (of: Thing, both: boolean, place: Place): Subject<AllOf> => ({
  content: { all: contentOfThing(of), both, place },
  plural: false,
  print: () => `${both ? 'both of' : 'every'} ${printThing(of, false)} of ${printPlace(place)}`,
  resolve: context => {
    const found = rangeOf(place, context);
    return 'problem' in found
      ? { kind: 'none', finding: found.problem }
      : { kind: 'found', subject: { thing: of, both, range: found.range } };
  },
  neighbours: () => [],
});

const plural = (n: number): string => `${String(n)} of them`;

function check({ thing: of, range, both }: AllOf, says: EachSays, context: ClaimContext): Finding<AllOf> {
  const narrow = narrowed(of, says);
  if (narrow === undefined)
    return { verdict: 'fails', code: 'C1912', reason: 'it is no such thing', evidence: [], pointless: true };
  const all = occurrencesOf(of, range, context);
  const fitting = occurrencesOf(narrow, range, context);
  const others = all.filter(each => !fitting.some(({ onset }) => compare(onset, each.onset) === 0));
  const holds = all.length > 0 && others.length === 0 && (!both || all.length === 2);
  const [other] = others;
  return {
    verdict: holds ? 'holds' : 'fails',
    code: holds ? 'C1911' : 'C1912',
    reason:
      all.length === 0
        ? 'there is none'
        : other !== undefined
          ? `it is not true of that in ${sayMoment(other.onset, context)}`
          : `there are ${plural(all.length)}: ${all.map(({ onset }) => sayMoment(onset, context)).join(', ')}`,
    // `not every` is not what `is not` says.
    ...(holds ? {} : { pointless: true as const }),
    evidence: (other === undefined ? all : others).slice(0, 8).flatMap(each => each.evidence.slice(0, 1)),
  };
}

/** What all things of a kind are: claim O2 of the trade for things that occur. */
export const eachThingFamily = family<AllOf, EachSays>({
  name: 'every thing',
  examples: ['every half cadence of the piece is in B minor'],
  phrases: [
    [be, map(suspensionFigure, (figure): EachSays => ({ figure }))],
    [be, map(sequence(word('in'), keyReference), ([, key]): EachSays => ({ key }))],
  ],
  print: (says, form) =>
    `${printBe(form)} ${'figure' in says ? says.figure : `in ${printKeyReference(says.key)}`}`,
  check,
});

/** `all suspensions are 4-3`, `both half cadences are in F major`, `two suspensions are 4-3`. */
export const eachThing: Parser<Claim> = rule('EachThing', () =>
  choice(
    map(
      sequence(
        choice(
          map(word('both of', 'both'), () => true),
          wordsFor<boolean>([[false, 'every', 'all', 'all the', 'each']]),
        ),
        thing,
        scope,
        eachThingFamily.predicate,
      ),
      ([both, of, place, says]) => statement(allOf(of, both, place), says),
    ),
    map(
      sequence(count, nonChordTone, scope, word('are', 'is'), suspensionFigure),
      ([number, says, place, , figure]) =>
        thingOccurs({ kind: 'tone', says: { ...says, figure } }, { kind: 'exactly', number }, place),
    ),
  ),
);
