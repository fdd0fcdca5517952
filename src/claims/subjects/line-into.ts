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

/**
 * What a sentence speaks of that joins a place to what comes before. `into`: the last note before it and its first, `leaps a fifth into bar 7`;
 * `at the start of`: the next one as well; `at the cadence in`: all of the place.
 */
export type Joint = 'into' | 'at the start of' | 'at the cadence in';
const notesIn: Readonly<Record<Joint, number>> = {
  into: 1,
  'at the start of': 2,
  'at the cadence in': Infinity,
};

/** Notes of a line from the last before a place on. */
export const lineInto = (line: LineName, place: Place, joint: Joint): Subject<Line> => {
  const print = (): string => `${printLine(line)} ${joint} ${printPlace(place)}`;
  return subjectAt<Line>({
    content: { line, joint, place },
    print,
    place,
    again: other => lineInto(line, other, joint),
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
      const inside = (all ?? []).slice(at).filter(({ start }) => isBefore(start, whole.range.end));
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
        subject: { line, span: whole, notes: [from, ...inside.slice(0, notesIn[joint])], name: print() },
      };
    },
  });
};
