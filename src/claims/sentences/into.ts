import type { Claim } from '../claim.js';
import { melodicFamily } from '../families/melodic.js';
import { choice, map, quiet, optional, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { placeName } from '../place/place-name.js';
import { statement } from '../statement.js';
import { lineName } from '../subjects/line-name.js';
import { lineInto } from '../subjects/line-into.js';

/** `the melody leaps up a perfect fifth into bar 7`, `the bass into bar 7 falls a fifth`: from the last note before it to its first. */
export const intoSentence: Parser<Claim> = rule('IntoAPlace', () =>
  choice(
    map(
      sequence(
        lineName,
        melodicFamily.predicate,
        quiet(optional(word('on the way'))),
        word(
          'into',
          'going into',
          'leading into',
          'to the start of',
          'to the beginning of',
          'over the bar line into',
          'across the bar line into',
        ),
        placeName,
      ),
      ([line, says, , , place]) => statement(lineInto(line, place), says),
    ),
    map(sequence(lineName, word('into'), placeName, melodicFamily.predicate), ([line, , place, says]) =>
      statement(lineInto(line, place), says),
    ),
  ),
);
