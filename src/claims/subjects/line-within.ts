import type { Resolution, Subject } from '../claim.js';
import type { LineName } from './line-name.js';
import { printLine } from './line-name.js';
import { describeLines } from './line-notes.js';
import { essentialNotes } from './line.js';
import type { Line } from './line.js';
import type { Span } from './span.js';

/** A line while something lasts that is no place: `the tenor of the last chord`. */
export const lineWithin = (line: LineName, where: Subject<Span>): Subject<Line> => {
  const print = (): string => `${printLine(line)} of ${where.print()}`;
  return {
    content: { line, of: where.content },
    plural: false,
    print,
    resolve: (context): Resolution<Line> => {
      const found = where.resolve(context);
      if (found.kind === 'none') return found;
      if (found.kind === 'endings')
        return { kind: 'endings', subjects: found.subjects.map(ending => lineWithin(line, ending)) };
      const whole = found.subject;
      const notes = essentialNotes(line, whole.range, context);
      return notes === undefined
        ? {
            kind: 'none',
            finding: {
              verdict: 'undecided',
              code: 'C0006',
              reason: `the score has no line that is called ${printLine(line)}: ${describeLines(context.analysis.score)}`,
              evidence: [],
            },
          }
        : { kind: 'found', subject: { line, span: whole, notes, name: print() } };
    },
    neighbours: () => [],
  };
};
