import type { Claim } from '../claim.js';
import { aChord } from '../families/chord-within.js';
import { choice, map, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { statement } from '../statement.js';
import { spanSubject } from '../subjects/span.js';
import { be, verb } from '../terms/verb.js';
import type { Verb } from '../terms/verb.js';
import { denied } from './links.js';

const isBroken: Verb = map(
  sequence(be, word('a broken', 'an arpeggiated', 'a spread', 'a rolled')),
  ([is]) => is,
);

/** `bar 2 outlines V7`, `bar 2 is a broken dominant seventh chord`: the chord of the place, spread over time. */
export const outlinedChord: Parser<Claim> = rule('OutlinedChord', () =>
  map(
    sequence(
      spanSubject,
      choice(
        ...['outlines', 'spells out', 'arpeggiates'].map(each =>
          verb(each, each.replace(/s(?= out|$)/u, '')),
        ),
        isBroken,
      ),
      aChord,
    ),
    ([subject, { negated }, of]) => statement(subject, denied(negated, of)),
  ),
);
