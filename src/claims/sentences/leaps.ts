import type { Claim } from '../claim.js';
import { aSize, beyond, leaps, leapSizeFamily } from '../families/leap-size.js';
import type { LeapSizeSays } from '../families/leap-size.js';
import { choice, map, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { at, atPlace, scope } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { statements } from '../statement.js';
import { lineName } from '../subjects/line-name.js';
import type { LineName } from '../subjects/line-name.js';
import { lineSubject } from '../subjects/line.js';
import { be } from '../terms/verb.js';
import { denied } from './links.js';

const largest = word('largest', 'biggest', 'widest', 'greatest');
interface Of {
  readonly line: LineName;
  readonly place: Place;
}
/** `the largest leap of the soprano`, `the soprano's widest leap in bars 1-8`. */
const largestLeap: Parser<Of> = choice(
  map(
    sequence(quiet(word('the')), largest, quiet(optional(word('melodic'))), leaps, at, lineName, scope),
    ([, , , , , line, place]) => ({ line, place }),
  ),
  map(
    sequence(lineName, word("'s"), largest, quiet(optional(word('melodic'))), leaps, scope),
    ([line, , , , , place]) => ({ line, place }),
  ),
);

/** `the largest leap of the soprano is a fourth in bar 5`, `no leap of the soprano is larger than a fourth`. */
export const largestLeapSentence: Parser<Claim> = rule('LargestLeap', () => {
  const where = map(atPlace, (place): LeapSizeSays => ({ kind: 'largest in', place }));
  const what = map(aSize, (size): LeapSizeSays => ({ kind: 'largest', size }));
  return choice(
    map(
      sequence(
        largestLeap,
        be,
        choice<readonly LeapSizeSays[]>(
          map(sequence(what, optional(where)), ([first, second]) =>
            second === undefined ? [first] : [first, second],
          ),
          map(where, says => [says]),
        ),
      ),
      ([{ line, place }, { negated }, all]) =>
        statements(
          [lineSubject(line, place)],
          all.map(says => denied(negated, leapSizeFamily.make(says))),
        ),
    ),
    map(
      sequence(
        word('no'),
        leaps,
        at,
        lineName,
        scope,
        word('is', 'exceeds', 'goes'),
        choice(
          beyond,
          map(aSize, (size): LeapSizeSays => ({ kind: 'beyond', size })),
        ),
      ),
      ([, , , line, place, , says]) =>
        statements([lineSubject(line, place)], [denied(true, leapSizeFamily.make(says))]),
    ),
  );
});
