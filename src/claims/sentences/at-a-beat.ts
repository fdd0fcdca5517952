import type { Claim } from '../claim.js';
import { choice, map, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { at, beatsNamed, oneBar } from '../place/place-name.js';
import { statement } from '../statement.js';
import { lineName } from '../subjects/line-name.js';
import { lineSubject } from '../subjects/line.js';
import { span } from '../subjects/span.js';
import { plainPredicate, linePredicate } from './predicates.js';

/** `bar 3 has V65/V on beat 4`: the beat behind what is said of the bar there. */
export const atBeat: Parser<Claim> = rule('AtBeat', () =>
  choice(
    map(sequence(oneBar, plainPredicate, word('on', 'at'), beatsNamed), ([bar, says, , beats]) =>
      statement(span({ kind: 'beats', bar, ...beats }), says),
    ),
    map(
      sequence(lineName, at, oneBar, linePredicate, word('on', 'at'), beatsNamed),
      ([line, , bar, says, , beats]) => statement(lineSubject(line, { kind: 'beats', bar, ...beats }), says),
    ),
  ),
);
