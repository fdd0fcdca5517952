import type { Predicate } from '../claim.js';
import { chordSuccessionFamily } from '../families/chord-succession.js';
import {
  lineFamilies,
  noteFamilies,
  pairFamilies,
  sectionFamilies,
  spanFamilies,
} from '../families/index.js';
import { pedal, pedalFamily } from '../families/pedal.js';
import type { Family } from '../family.js';
import { choice, list, map, optional, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { negation } from '../negation.js';
import { ordinalPredicate } from '../quantity/ordinal.js';
import type { Span } from '../subjects/span.js';
import { be, have } from '../terms/verb.js';
import type { Verb } from '../terms/verb.js';
import { andThat } from './links.js';

export const predicateOf = <S>(name: string, families: readonly Family<S>[]): Parser<Predicate<S>> =>
  rule(`${name}Predicate`, () => choice(...families.map(family => family.predicate)));

export const plainPredicate = predicateOf('Place', spanFamilies);

/** What a place is or has, behind its verb. */
const afterVerb = (name: string, verb_: Verb): Parser<Predicate<Span>> =>
  rule(name, () => choice(...spanFamilies.flatMap(family => family.after(verb_))));

export const afterBe = afterVerb('WhatAPlaceIs', be);

export const afterHave = afterVerb('WhatItHas', have);

export const having = rule('WhatAPlaceHas', () => choice(...spanFamilies.flatMap(family => family.having)));

export const placePredicate = choice(plainPredicate, ordinalPredicate(plainPredicate, having));

/** What is said of a chord: where it goes before where the key goes. */
export const chordPredicate = choice(chordSuccessionFamily.predicate, placePredicate);

/** What is said of a stretch that is named by what it is: also where it begins and ends. */
export const sectionPredicate = choice(predicateOf('Section', sectionFamilies), placePredicate);

/** `is V with a 9-8 suspension`, `is iv over a dominant pedal`: what the place has besides. */
export const placePredicates: Parser<readonly Predicate<Span>[]> = rule('PlacePredicates', () =>
  map(
    sequence(
      list(placePredicate, andThat),
      optional(
        choice(
          map(sequence(word('with'), having), ([, has]) => has),
          map(sequence(word('without'), having), ([, has]) => negation(has)),
          map(sequence(word('over'), pedal), ([, says]) => pedalFamily.make(says)),
        ),
      ),
    ),
    ([predicates, has]) => (has === undefined ? predicates : [...predicates, has]),
  ),
);

export const linePredicate = predicateOf('Line', lineFamilies);

export const pairPredicate = predicateOf('Pair', pairFamilies);

export const notePredicate = predicateOf('Note', noteFamilies);

export const lineHaving = rule('WhatALineHas', () =>
  choice(...lineFamilies.flatMap(family => family.having)),
);
