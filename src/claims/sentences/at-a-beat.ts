import type { Claim } from '../claim.js';
import { conjunction } from '../conjunction.js';
import { aChord } from '../families/chord-within.js';
import { choice, list, map, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { at, beatsNamed, oneBar } from '../place/place-name.js';
import { statement } from '../statement.js';
import { lineName } from '../subjects/line-name.js';
import { lineSubject } from '../subjects/line.js';
import { span } from '../subjects/span.js';
import { be, have } from '../terms/verb.js';
import { and, denied } from './links.js';
import { plainPredicate, linePredicate } from './predicates.js';

/** `bar 3 has V65/V on beat 4`: the beat behind what is said of the bar there. */
export const atBeat: Parser<Claim> = rule('AtBeat', () =>
  choice(
    map(
      sequence(
        quiet(optional(word('the harmony of', 'the harmony in', 'the chord of', 'the chord in'))),
        oneBar,
        plainPredicate,
        word('on', 'at'),
        beatsNamed,
      ),
      ([, bar, says, , beats]) => statement(span({ kind: 'beats', bar, ...beats }), says),
    ),
    map(
      sequence(lineName, at, oneBar, linePredicate, word('on', 'at'), beatsNamed),
      ([line, , bar, says, , beats]) => statement(lineSubject(line, { kind: 'beats', bar, ...beats }), says),
    ),
    // `bar 1 is I on beats 1-2 and V on beats 3-4`.
    map(
      sequence(oneBar, choice(be, have), list(sequence(aChord, word('on', 'at'), beatsNamed), and)),
      ([bar, { negated }, said]) =>
        conjunction(
          said.map(([says, , beats]) =>
            statement(span({ kind: 'beats', bar, ...beats }), denied(negated, says)),
          ),
        ),
    ),
  ),
);
