import type { Claim } from '../claim.js';
import { degreeRowFamily } from '../families/degree-row.js';
import { melodicFamily } from '../families/melodic.js';
import { choice, map, mark, optional, quiet, rule, sequence, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { placeName } from '../place/place-name.js';
import { statement } from '../statement.js';
import { lineName } from '../subjects/line-name.js';
import { lineInto } from '../subjects/line-into.js';
import type { Joint } from '../subjects/line-into.js';

const melodicPredicate = rule('MelodicPredicate', () =>
  choice(melodicFamily.predicate, degreeRowFamily.predicate),
);
const joints = wordsFor<Joint>([
  ['into', 'into', 'going into', 'leading into', 'over the bar line into', 'across the bar line into'],
  ['at the start of', 'at the start of', 'at the beginning of', 'at the opening of'],
  ['at the cadence in', 'at the cadence in', 'at the cadence of', 'at the close in', 'for the cadence in'],
]);

/** `the melody leaps up a perfect fifth into bar 7`, `the bass at the cadence in bar 8 falls a fifth`: a move from before a place into it. */
export const intoSentence: Parser<Claim> = rule('IntoAPlace', () =>
  choice(
    map(sequence(lineName, melodicPredicate, joints, placeName), ([line, says, joint, place]) =>
      statement(lineInto(line, place, joint), says),
    ),
    map(sequence(lineName, joints, placeName, melodicPredicate), ([line, joint, place, says]) =>
      statement(lineInto(line, place, joint), says),
    ),
    // `at the cadence in bar 8 the bass falls a fifth`.
    map(
      sequence(joints, placeName, quiet(optional(mark(','))), lineName, melodicPredicate),
      ([joint, place, , line, says]) => statement(lineInto(line, place, joint), says),
    ),
  ),
);
