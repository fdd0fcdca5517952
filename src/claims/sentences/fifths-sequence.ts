import type { Claim } from '../claim.js';
import { progressionFamily } from '../families/progression.js';
import { sequenceFamily } from '../families/sequence.js';
import { choice, map, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { negation } from '../negation.js';
import { before, scope } from '../place/place-name.js';
import { statement, statements } from '../statement.js';
import { span, spanSubject } from '../subjects/span.js';
import { article } from '../terms/chord-name.js';
import { be, have } from '../terms/verb.js';
import { thereIs } from './openings.js';

/** `bars 17-20 are a descending fifths sequence`: a model that is repeated, over roots that fall by fifths. */
export const fifthsSequence: Parser<Claim> = rule('FifthsSequence', () =>
  map(
    choice(
      map(
        sequence(spanSubject, choice(be, have), aFifthsSequence),
        ([subject, verb_]) => [subject, verb_] as const,
      ),
      map(
        sequence(thereIs, aFifthsSequence, scope),
        ([no, , place]) => [span(place), { negated: no }] as const,
      ),
      map(
        sequence(before, thereIs, aFifthsSequence),
        ([place, no]) => [span(place), { negated: no }] as const,
      ),
    ),
    ([subject, { negated }]) => {
      const fifths = progressionFamily.make({ kind: 'fifths' });
      return negated
        ? statement(subject, negation(fifths))
        : statements([subject], [sequenceFamily.make({}), fifths]);
    },
  ),
);

const aFifthsSequence = sequence(
  quiet(optional(article)),
  choice<unknown>(
    sequence(quiet(optional(word('descending', 'falling'))), word('fifths', 'fifth'), word('sequence')),
    sequence(word('sequence of'), quiet(optional(word('descending', 'falling'))), word('fifths')),
  ),
);
