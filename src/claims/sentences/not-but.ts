import type { Claim, Predicate } from '../claim.js';
import { choice, failed, map, mark, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { negation } from '../negation.js';
import { statements } from '../statement.js';
import type { Span } from '../subjects/span.js';
import { be, have } from '../terms/verb.js';
import type { Verb } from '../terms/verb.js';
import { placeSubjects } from './openings.js';
import { plainPredicate, afterBe, afterHave } from './predicates.js';

/** A predicate whose verb is known, so that what follows may leave the verb out. */
const withVerb = (verb_: Verb, complement: Parser<Predicate<Span>>): Parser<Predicate<Span>> => ({
  shape: sequence(verb_, complement).shape,
  // Read as any predicate of the place is, which has been done at this place.
  read: (reading, at_) =>
    verb_.read(reading, at_).steps.length === 0 ? failed(reading, at_) : plainPredicate.read(reading, at_),
});

/** `bar 30 has E#, not F`, `bar 7 is a cadential six-four, not a tonic chord`. */
export const contrast: Parser<Claim> = rule('Contrast', () =>
  map(
    choice(
      sequence(
        placeSubjects,
        withVerb(have, afterHave),
        quiet(optional(mark(','))),
        word('not', 'and not'),
        afterHave,
      ),
      sequence(
        placeSubjects,
        withVerb(be, afterBe),
        quiet(optional(mark(','))),
        word('not', 'and not'),
        afterBe,
      ),
    ),
    ([subjects, one, , , other]) => statements(subjects, [one, negation(other)]),
  ),
);
