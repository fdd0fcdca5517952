import type { Claim, Predicate, Subject } from '../claim.js';
import { choice, list, map, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { conjunction } from '../conjunction.js';
import { negation } from '../negation.js';
import { atPlace } from '../place/place-name.js';
import { statement, statements } from '../statement.js';
import { chordSubject } from '../subjects/chord-subject.js';
import { lineName } from '../subjects/line-name.js';
import { lineSubject, lineSubjectName } from '../subjects/line.js';
import { span, spanSubject } from '../subjects/span.js';
import { be, have, haveNo } from '../terms/verb.js';
import { and, denied } from './links.js';
import { placeSubjects, wholeMusic } from './openings.js';
import { afterBe, having, lineHaving, linePredicate, placePredicate } from './predicates.js';

/** Two or more. */
const several = <T>(parser: Parser<T>): Parser<readonly T[]> =>
  map(sequence(parser, and, list(parser, and)), ([first, , others]) => [first, ...others]);

/** `has a suspension and a passing tone`, `has no third and no fifth`, `has neither a third nor a fifth`. */
const hasSeveral = <S>(had: Parser<Predicate<S>>): Parser<readonly Predicate<S>[]> =>
  choice<readonly Predicate<S>[]>(
    map(sequence(have, several(had)), ([{ negated }, all]) => all.map(each => denied(negated, each))),
    map(
      sequence(
        haveNo,
        had,
        and,
        list(
          map(sequence(word('no'), had), ([, each]) => each),
          and,
        ),
      ),
      ([, first, , others]) => [first, ...others].map(negation),
    ),
    map(sequence(word('has neither', 'have neither'), had, word('nor'), had), ([, first, , second]) =>
      [first, second].map(negation),
    ),
  );

const about = <S>(
  subjects: Parser<readonly Subject<S>[]>,
  predicates: Parser<readonly Predicate<S>[]>,
): Parser<Claim> => map(sequence(subjects, predicates), ([of, says]) => statements(of, says));
const one = <S>(subject: Parser<Subject<S>>): Parser<readonly Subject<S>[]> => map(subject, of => [of]);

/** Several things said of one subject behind a verb that stands once, or of one subject in several places. */
export const verbSaidOnce: Parser<Claim> = rule('VerbSaidOnce', () =>
  choice(
    about(placeSubjects, hasSeveral(having)),
    about(one(chordSubject), hasSeveral(having)),
    about(one(lineSubjectName), hasSeveral(lineHaving)),
    // `bar 8 is V and a half cadence`.
    map(sequence(spanSubject, be, several(afterBe)), ([subject, { negated }, all]) =>
      statements(
        [subject],
        all.map(each => denied(negated, each)),
      ),
    ),
    // `the bass falls in bars 1-2 and rises in bars 3-4`.
    map(sequence(lineName, several(sequence(linePredicate, atPlace))), ([line, all]) =>
      conjunction(all.map(([says, place]) => statement(lineSubject(line, place), says))),
    ),
    map(sequence(wholeMusic, several(sequence(placePredicate, atPlace))), ([, all]) =>
      conjunction(all.map(([says, place]) => statement(span(place), says))),
    ),
  ),
);
