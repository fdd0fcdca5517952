import type { Claim } from '../claim.js';
import { extremeFamily } from '../families/register.js';
import { map, mark, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { placeName } from '../place/place-name.js';
import { statements } from '../statement.js';
import { extremeName } from '../subjects/extreme.js';
import { noteName } from '../terms/note-name.js';

/** `the highest note of bars 9-12 is D5, in bar 11`: which note it is, and where. */
export const extremeInItsPlace: Parser<Claim> = rule('ExtremeInItsPlace', () =>
  map(
    sequence(
      extremeName,
      word('is'),
      quiet(optional(word('the'))),
      noteName,
      quiet(optional(mark(','))),
      word('in', 'on', 'at', 'of'),
      placeName,
    ),
    ([subject, , , note, , , place]) =>
      statements(
        [subject],
        [extremeFamily.make({ kind: 'pitch', note }), extremeFamily.make({ kind: 'place', place })],
      ),
  ),
);
