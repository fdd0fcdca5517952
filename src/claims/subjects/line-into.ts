import { compare, isBefore } from '../../score/index.js';
import type { Resolution, Subject } from '../claim.js';
import { endOf } from '../place/beats.js';
import { printPlace } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { printLine } from './line-name.js';
import type { LineName } from './line-name.js';
import { essentialNotes } from './line.js';
import type { Line } from './line.js';
import { subjectAt } from './subject-at.js';

/** Two notes of a line: the last before a place and the first in it, as `leaps a fifth into bar 7` speaks of them. */
export const lineInto = (line: LineName, place: Place): Subject<Line> => {
  const print = (): string => `${printLine(line)} into ${printPlace(place)}`;
  return subjectAt<Line>({
    content: { line, into: place },
    print,
    place,
    again: other => lineInto(line, other),
    find: (whole, context): Resolution<Line> => {
      const { bars } = context.analysis.score;
      const [first, last] = [bars[0], bars.at(-1)];
      const all =
        first === undefined || last === undefined
          ? undefined
          : essentialNotes(line, { start: first.start, end: endOf(last) }, context);
      const at = (all ?? []).findIndex(({ start }) => compare(whole.range.start, start) <= 0);
      const arrival = all?.[at];
      const from = all?.[at - 1];
      if (arrival === undefined || from === undefined || !isBefore(arrival.start, whole.range.end))
        return {
          kind: 'none',
          finding: {
            verdict: all === undefined ? 'undecided' : 'fails',
            code: all === undefined ? 'C0006' : 'C1103',
            reason:
              all === undefined
                ? `the score has no line that is called ${printLine(line)}`
                : `${printLine(line)} does not move into ${printPlace(place)}`,
            evidence: [],
          },
        };
      return {
        kind: 'found',
        subject: { line, span: whole, notes: [from, arrival], name: print() },
      };
    },
  });
};
