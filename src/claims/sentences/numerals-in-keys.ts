import type { Claim } from '../claim.js';
import { conjunction } from '../conjunction.js';
import { chordWithinFamily } from '../families/chord-within.js';
import { numeralFamily } from '../families/numeral.js';
import { progressionFamily } from '../families/progression.js';
import { choice, list, map, mark, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { statement, statements } from '../statement.js';
import { chordSubject } from '../subjects/chord-subject.js';
import { spanSubject } from '../subjects/span.js';
import { anyKey } from '../terms/key-reference.js';
import { numeral, numeralToken } from '../terms/numeral.js';
import { be, have } from '../terms/verb.js';
import { and, denied } from './links.js';

/** `in D major, bar 12 is V65 and bar 13 is I`. */
export const inKeySentence: Parser<Claim> = rule('InKeySentence', () =>
  map(
    sequence(word('in'), anyKey, quiet(optional(mark(','))), list(sequence(spanSubject, be, numeral), and)),
    ([, key, , said]) =>
      conjunction(
        said.map(([subject, { negated }, read]) =>
          statement(subject, denied(negated, numeralFamily.make({ numeral: read, key }))),
        ),
      ),
  ),
);

/** `bar 6 beat 1 is vi in Eb major and ii in Bb major`. */
export const severalNumerals: Parser<Claim> = rule('SeveralNumerals', () =>
  map(
    sequence(
      choice(spanSubject, chordSubject),
      be,
      list(sequence(numeral, word('in'), anyKey), choice(word('and'), quiet(mark(',', '=')))),
    ),
    ([subject, { negated }, said]) =>
      conjunction(
        said.map(([read, , key]) =>
          statement(subject, denied(negated, numeralFamily.make({ numeral: read, key }))),
        ),
      ),
  ),
);

/** `bar 3 is ii6 and V`: what the place is, one chord after the other; `bar 3 has ii6 and V`: each of them somewhere in it. */
export const severalChords: Parser<Claim> = rule('SeveralChords', () => {
  const hasChord = choice(...chordWithinFamily.after(have));
  return choice(
    map(
      sequence(
        spanSubject,
        be,
        numeralToken,
        and,
        list(numeralToken, and),
        optional(sequence(word('in'), anyKey)),
      ),
      ([subject, { negated }, first, , others, key]) =>
        statement(
          subject,
          denied(
            negated,
            progressionFamily.make({
              kind: 'numerals',
              numerals: [first, ...others],
              ...(key === undefined ? {} : { key: key[1] }),
            }),
          ),
        ),
    ),
    map(
      sequence(spanSubject, have, hasChord, and, list(hasChord, and)),
      ([subject, { negated }, first, , others]) =>
        statements(
          [subject],
          [first, ...others].map(each => denied(negated, each)),
        ),
    ),
  );
});
