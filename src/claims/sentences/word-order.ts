import type { Claim, Predicate, Subject } from '../claim.js';
import { choice, list, map, optional, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { negation } from '../negation.js';
import { atPlace } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { statement, statements } from '../statement.js';
import { and } from './links.js';

/** `the bass of bars 1-4 never leaps`. Of a place, `never` counts its bars: quantified.ts. */
const never = <S>(subject: Parser<Subject<S>>, predicate: Parser<Predicate<S>>): Parser<Claim> =>
  map(sequence(subject, word('never'), predicate), ([of, , says]) => statement(of, negation(says)));

/** `bar 3 and bar 5 are V7/V and have F#`: every predicate is said of every subject. */
export const about = <S>(
  name: string,
  subject: Parser<Subject<S>>,
  predicate: Parser<Predicate<S>>,
): Parser<Claim> =>
  rule(`${name}Sentence`, () =>
    choice(
      map(sequence(list(subject, and), list(predicate, and)), ([subjects, predicates]) =>
        statements(subjects, predicates),
      ),
      never(subject, predicate),
    ),
  );

/** `never leaps`, `rises and falls`: what is said of something that is named before. */
const said = <S>(predicate: Parser<Predicate<S>>): Parser<readonly Predicate<S>[]> =>
  map(sequence(optional(word('never')), list(predicate, and)), ([no, predicates]) =>
    no === undefined ? predicates : predicates.map(negation),
  );

/** The place behind what is said of something in it: `the bass rises by step in bars 1-3`. */
export const placedAfter = <T, S>(
  name: string,
  of: Parser<T>,
  predicate: Parser<Predicate<S>>,
  subject: (of: T, place: Place) => Subject<S>,
): Parser<Claim> =>
  rule(`${name}SentenceWithPlaceAfter`, () =>
    map(sequence(of, said(predicate), atPlace), ([which, predicates, place]) =>
      statements([subject(which, place)], predicates),
    ),
  );

/** `the alto and the tenor never cross`: of the piece, where no place is named. */
export const ofWholePiece = <T, S>(
  name: string,
  of: Parser<T>,
  predicate: Parser<Predicate<S>>,
  subject: (of: T, place: Place) => Subject<S>,
): Parser<Claim> =>
  rule(`${name}SentenceOfThePiece`, () =>
    map(sequence(of, said(predicate)), ([which, predicates]) =>
      statements([subject(which, { kind: 'piece' })], predicates),
    ),
  );
