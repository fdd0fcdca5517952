import { midiOf } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { Subject } from '../claim.js';
import { choice, map, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { at, printPlace, scope } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { lineName, lineNoun, printLine } from './line-name.js';
import type { LineName } from './line-name.js';
import { lineSubject } from './line.js';
import { once } from './note.js';
import { soundingIn } from './sounding.js';
import type { Span } from './span.js';
import { subjectAt } from './subject-at.js';

type Which = 'highest' | 'lowest';

/** The highest or lowest pitch of a place, with every note that reaches it. */
export interface Extreme {
  readonly which: Which;
  readonly span: Span;
  /** All notes of that pitch, in time order. */
  readonly notes: readonly [Note, ...Note[]];
  readonly name: string;
}

export const extreme = (which: Which, line: LineName | undefined, place: Place): Subject<Extreme> => {
  const print = (): string =>
    `the ${which} note of ${line === undefined ? '' : `${printLine(line)} of `}${printPlace(place)}`;
  return subjectAt({
    content: { which, place, ...(line === undefined ? {} : { line }) },
    print,
    place,
    fixed: true,
    again: other => extreme(which, line, other),
    find: (whole, context) => {
      const inLine = line === undefined ? undefined : lineSubject(line, place).resolve(context);
      if (inLine?.kind === 'none') return inLine;
      const notes =
        inLine?.kind === 'found'
          ? inLine.subject.notes.map(({ note }) => note)
          : soundingIn(context.analysis.score, whole.range).filter(note => !note.grace);
      const sign = which === 'highest' ? 1 : -1;
      const edge = notes.reduce((most, note) => Math.max(most, sign * midiOf(note.pitch)), -Infinity);
      const [first, ...rest] = once(notes.filter(note => sign * midiOf(note.pitch) === edge));
      if (first === undefined)
        return {
          kind: 'none',
          finding: {
            verdict: 'undecided',
            code: 'C0005',
            reason: `nothing sounds in ${printPlace(place)}`,
            evidence: [],
          },
        };
      return {
        kind: 'found',
        subject: { which, span: whole, notes: [first, ...rest], name: print() },
      };
    },
  });
};

export const which = wordsFor<Which>([
  ['highest', 'highest', 'top'],
  ['lowest', 'lowest', 'bottom'],
]);

/** `the highest note of the piece`, `the highest note`, `the lowest note of the bass in bars 1-8`. */
export const extremeName: Parser<Subject<Extreme>> = choice(
  map(sequence(word('the'), which, word('note', 'pitch', 'tone'), scope), ([, edge, , place]) =>
    extreme(edge, undefined, place),
  ),
  map(
    sequence(word('the'), which, word('note', 'pitch', 'tone'), at, lineName, scope),
    ([, edge, , , line, place]) => extreme(edge, line, place),
  ),
  // `the highest soprano note`, `the soprano's highest note`.
  map(
    sequence(word('the'), which, lineNoun, word('note', 'pitch', 'tone'), scope),
    ([, edge, line, , place]) => extreme(edge, line, place),
  ),
  map(
    sequence(lineName, word("'s"), which, word('note', 'pitch', 'tone'), scope),
    ([line, , edge, , place]) => extreme(edge, line, place),
  ),
);
