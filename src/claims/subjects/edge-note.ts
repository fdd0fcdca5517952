import type { Subject } from '../claim.js';
import { choice, map, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { at, before, printPlace, scope } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { lineSubject } from './line.js';
import { lineName, printLine } from './line-name.js';
import type { LineName } from './line-name.js';
import type { PointedNotes } from './note.js';
import { subjectAt } from './subject-at.js';

type Edge = 'first' | 'last';

/** `the first note of the soprano of bar 3`: one note of a line by its place in it. */
export const edgeNote = (edge: Edge, line: LineName, place: Place): Subject<PointedNotes> => {
  const print = (): string => `the ${edge} note of ${printLine(line)} of ${printPlace(place)}`;
  return subjectAt<PointedNotes>({
    content: { edge, line, place },
    print,
    place,
    fixed: true,
    again: other => edgeNote(edge, line, other),
    find: (whole, context) => {
      const found = lineSubject(line, place).resolve(context);
      if (found.kind === 'none') return found;
      const notes = found.kind === 'found' ? found.subject.notes : [];
      const chosen = edge === 'first' ? notes[0] : notes.at(-1);
      if (chosen === undefined)
        return {
          kind: 'none',
          finding: {
            verdict: 'undecided',
            code: 'C0005',
            reason: `nothing sounds in ${printLine(line)} of ${whole.name}`,
            evidence: [],
          },
        };
      return {
        kind: 'found',
        subject: { span: whole, notes: [chosen.note], name: print() },
      };
    },
  });
};

const edges = wordsFor<Edge>([
  ['first', 'first', 'opening'],
  ['last', 'last', 'final', 'closing'],
]);

/** `the first note of the melody in bar 3`, `the last note of the bass`. */
export const edgeNoteName: Parser<Subject<PointedNotes>> = choice(
  map(sequence(word('the'), edges, word('note', 'pitch'), at, lineName, scope), ([, edge, , , line, place]) =>
    edgeNote(edge, line, place),
  ),
  map(
    sequence(before, word('the'), edges, word('note', 'pitch'), at, lineName),
    ([place, , edge, , , line]) => edgeNote(edge, line, place),
  ),
);
