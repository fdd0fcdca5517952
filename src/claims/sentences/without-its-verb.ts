import type { Claim } from '../claim.js';
import { conjunction } from '../conjunction.js';
import { list, map, rule, sequence } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { statement } from '../statement.js';
import { spanSubject } from '../subjects/span.js';
import { be } from '../terms/verb.js';
import { and, denied } from './links.js';
import { afterBe } from './predicates.js';

/** `bar 1 is I, bar 2 V and bar 3 I`: the verb stands once. */
export const withoutItsVerb: Parser<Claim> = rule('WithoutItsVerb', () =>
  map(
    sequence(spanSubject, be, afterBe, and, list(sequence(spanSubject, afterBe), and)),
    ([first, { negated }, says, , others]) =>
      conjunction([
        statement(first, denied(negated, says)),
        ...others.map(([subject, what]) => statement(subject, denied(negated, what))),
      ]),
  ),
);
