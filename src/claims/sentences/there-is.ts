import type { PitchClass } from '../../score/index.js';
import type { Claim } from '../claim.js';
import { conjunction } from '../conjunction.js';
import { aCadence, cadenceFamily } from '../families/cadence.js';
import { soundingInterval, verticalIntervalFamily } from '../families/dissonance.js';
import { nameableFamilies } from '../families/index.js';
import { choice, list, map, mark, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { at, atPlace, before, placeName, scope } from '../place/place-name.js';
import { statement, statements } from '../statement.js';
import { lineName } from '../subjects/line-name.js';
import { lineSubject } from '../subjects/line.js';
import { severalBars, span } from '../subjects/span.js';
import { anyKey } from '../terms/key-reference.js';
import { pitchClassName } from '../terms/note-name.js';
import { be, verb } from '../terms/verb.js';
import { and, denied } from './links.js';
import { thereIs, wholeMusic } from './openings.js';
import { having, placePredicate, lineHaving } from './predicates.js';

/**
 * `in bar 16 is a perfect cadence`, `in bar 8 we have a half cadence`, `from bar 9 to 16 we modulate to D major`. What is in a place is
 * something that the place has among others.
 */
export const placeFirst: Parser<Claim> = rule('PlaceFirst', () =>
  choice(
    map(sequence(before, choice(be, verb('comes', 'come')), having), ([place, { negated }, has]) =>
      statement(span(place), denied(negated, has)),
    ),
    map(sequence(before, wholeMusic, list(placePredicate, and)), ([place, , predicates]) =>
      statements([span(place)], predicates),
    ),
  ),
);

/** `there is a suspension in bar 3`, `in bar 3 there is a suspension`. */
export const thereSentence: Parser<Claim> = rule('ThereSentence', () =>
  choice(
    map(sequence(thereIs, having, scope), ([no, has, place]) => statement(span(place), denied(no, has))),
    map(sequence(before, thereIs, having), ([place, no, has]) => statement(span(place), denied(no, has))),
    // `there are suspensions in bars 3, 5 and 13`: in each of them.
    map(sequence(thereIs, having, word('in'), severalBars), ([no, has, , bars]) =>
      statements(bars, [denied(no, has)]),
    ),
    map(
      sequence(
        word('between'),
        pitchClassName,
        word('and'),
        pitchClassName,
        thereIs,
        soundingInterval,
        at,
        placeName,
      ),
      ([, a, , b, no, says, , place]) =>
        statement(span(place), denied(no, verticalIntervalFamily.make({ ...says, between: [a, b] }))),
    ),
    map(
      sequence(
        theTwoNotes,
        choice(be, verb('forms', 'form'), verb('makes', 'make')),
        soundingInterval,
        atPlace,
      ),
      ([between, { negated }, says, place]) =>
        statement(span(place), denied(negated, verticalIntervalFamily.make({ ...says, between }))),
    ),
    map(
      sequence(
        theTwoNotes,
        atPlace,
        choice(be, verb('forms', 'form'), verb('makes', 'make')),
        soundingInterval,
      ),
      ([between, place, { negated }, says]) =>
        statement(span(place), denied(negated, verticalIntervalFamily.make({ ...says, between }))),
    ),
  ),
);

/**
 * `no parallel fifths in bars 1-8`: as a note to oneself, without a verb. Behind another sentence it would belong to that: `the chord has no
 * third and no fifth`.
 */
export const nothingOf: Parser<Claim> = rule('NothingOf', () =>
  map(
    list(
      map(sequence(word('no'), having, scope), ([, has, place]) => statement(span(place), denied(true, has))),
      and,
    ),
    conjunction,
  ),
);

/** `half cadence in bar 8`, `PAC in D major, m. 16`: as a note to oneself, without a verb. */
export const noteToOneself: Parser<Claim> = rule('NoteToOneself', () => {
  const named = choice(...nameableFamilies.flatMap(family => family.having));
  const comma = quiet(optional(mark(',')));
  return choice(
    map(sequence(named, atPlace), ([has, place]) => statement(span(place), has)),
    map(sequence(named, comma, placeName), ([has, , place]) => statement(span(place), has)),
    map(
      sequence(quiet(optional(thereIs)), aCadence, atPlace, comma, word('in'), anyKey),
      ([no, name, place, , , key]) =>
        statement(span(place), denied(no === true, cadenceFamily.make({ how: 'has', name, key }))),
    ),
  );
});

/** `the G and the E#`: two notes that sound together. */
const theTwoNotes = rule('TwoNotes', () =>
  map(
    sequence(
      quiet(optional(word('the'))),
      pitchClassName,
      word('and'),
      quiet(optional(word('the'))),
      pitchClassName,
    ),
    ([, a, , , b]): readonly [PitchClass, PitchClass] => [a, b],
  ),
);

/** `there's a 9-8 suspension in the alto in bar 4`. */
export const thereInLine: Parser<Claim> = rule('ThereInLine', () =>
  map(sequence(thereIs, lineHaving, word('in'), lineName, scope), ([no, has, , line, place]) =>
    statement(lineSubject(line, place), denied(no, has)),
  ),
);
