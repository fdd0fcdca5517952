import type { Claim } from '../claim.js';
import { spanFamilies } from '../families/index.js';
import { ruleName } from '../family.js';
import type { Family } from '../family.js';
import { choice, map, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { negation } from '../negation.js';
import { atPlace, before, scope } from '../place/place-name.js';
import { statement } from '../statement.js';
import type { Span } from '../subjects/span.js';
import { chordSubject } from '../subjects/chord-subject.js';
import { span } from '../subjects/span.js';

/** `key of bars 1-8 is B minor`: the nouns of one family. */
const aspectsOf = ({ name, aspects }: Family<Span>): Parser<Claim> =>
  rule(`${ruleName(name)}Aspect`, () =>
    choice(
      ...aspects.flatMap(({ noun, predicate }) => [
        map(sequence(before, quiet(optional(word('the'))), noun, predicate), ([place, , , says]) =>
          statement(span(place), says),
        ),
        map(sequence(noun, scope, optional(word('never')), predicate), ([, place, no, says]) =>
          statement(span(place), no === undefined ? says : negation(says)),
        ),
        map(sequence(noun, predicate, atPlace), ([, says, place]) => statement(span(place), says)),
        // `the root is doubled in the last chord`.
        map(sequence(noun, predicate, word('in', 'of'), chordSubject), ([, says, , chord]) =>
          statement(chord, says),
        ),
        map(sequence(noun, word('of'), chordSubject, predicate), ([, , chord, says]) =>
          statement(chord, says),
        ),
      ]),
    ),
  );

/** `the key of bars 1-8 is B minor`, `the key is B minor`, `the figuration stays the same in bars 3-4`. */
export const aspectSentence: Parser<Claim> = rule('AspectSentence', () =>
  map(
    sequence(
      quiet(optional(word('the'))),
      choice(...spanFamilies.filter(({ aspects }) => aspects.length > 0).map(aspectsOf)),
    ),
    ([, claim]) => claim,
  ),
);
