import type { Claim } from '../claim.js';
import { crossingFamily } from '../families/crossing.js';
import { parallelsFamily, parallelsName } from '../families/parallels.js';
import type { ParallelsSays } from '../families/parallels.js';
import { choice, map, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { at, placeName } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { statement } from '../statement.js';
import { lineName } from '../subjects/line-name.js';
import type { LineName } from '../subjects/line-name.js';
import { pairSubject, twoLines } from '../subjects/pair.js';
import { span } from '../subjects/span.js';
import { have, haveNo, verb } from '../terms/verb.js';
import { denied } from './links.js';

/** `the outer voices have parallel octaves in bar 2`, `the alto crosses the soprano in bar 8`. */
export const twoLinesSentence: Parser<Claim> = rule('TwoLinesSentence', () => {
  const parallels = (
    lines: readonly [LineName, LineName],
    no: boolean,
    says: ParallelsSays,
    place: Place,
  ): Claim => statement(span(place), denied(no, parallelsFamily.make({ ...says, lines })));
  const has = choice(
    map(have, ({ negated }) => negated),
    map(haveNo, () => true),
  );
  return choice(
    map(sequence(twoLines, has, parallelsName, at, placeName), ([lines, no, says, , place]) =>
      parallels(lines, no, says, place),
    ),
    map(sequence(twoLines, at, placeName, has, parallelsName), ([lines, , place, no, says]) =>
      parallels(lines, no, says, place),
    ),
    map(
      sequence(
        lineName,
        choice<{ readonly negated: boolean; readonly kind: 'cross' | 'overlap' }>(
          map(verb('crosses', 'cross'), ({ negated }) => ({ negated, kind: 'cross' as const })),
          map(verb('overlaps', 'overlap'), ({ negated }) => ({ negated, kind: 'overlap' as const })),
        ),
        quiet(optional(word('above', 'below', 'over', 'under', 'with'))),
        lineName,
        at,
        placeName,
      ),
      ([first, { negated, kind }, , second, , place]) => {
        const [upper, lower] = rankOf(first) <= rankOf(second) ? [first, second] : [second, first];
        return statement(pairSubject(upper, lower, place), denied(negated, crossingFamily.make({ kind })));
      },
    ),
  );
});

const ranks: readonly string[] = ['soprano', 'alto', 'tenor', 'bass'];

const rankOf = (line: LineName): number => (line.kind === 'part' ? ranks.indexOf(line.part) : 0);
