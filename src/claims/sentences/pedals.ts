import type { Claim } from '../claim.js';
import { pedal, pedalFamily } from '../families/pedal.js';
import { choice, map, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { atPlace } from '../place/place-name.js';
import { statement } from '../statement.js';
import { span } from '../subjects/span.js';
import { be, verb } from '../terms/verb.js';
import { denied } from './links.js';

/** `the F# pedal lasts from bar 21 to bar 24`. */
export const pedalLasts: Parser<Claim> = rule('PedalLasts', () =>
  map(
    sequence(
      word('the'),
      pedal,
      choice(verb('lasts', 'last'), verb('runs', 'run'), verb('continues', 'continue'), be),
      quiet(optional(word('through'))),
      atPlace,
    ),
    ([, says, { negated }, , place]) => statement(span(place), denied(negated, pedalFamily.make(says))),
  ),
);
