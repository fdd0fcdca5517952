import type { Note } from '../../score/index.js';
import type { Subject } from '../claim.js';
import { missingEvidence } from '../evidence.js';
import { choice, map, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { at, placeName, printPlace } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { isNamed, noteName, printNoteName } from '../terms/note-name.js';
import type { NoteName } from '../terms/note-name.js';
import { lineName, lineNoun, printLine } from './line-name.js';
import type { LineName } from './line-name.js';
import { lineSubject } from './line.js';
import { lineNotes } from './line-notes.js';
import { soundingIn } from './sounding.js';
import type { Span } from './span.js';
import { subjectAt } from './subject-at.js';

/** Notes that a sentence points at: all notes of one name at a place. */
export interface PointedNotes {
  readonly span: Span;
  /** Heads that sound at the place, each struck note once, in time order; never empty. */
  readonly notes: readonly [Note, ...Note[]];
  readonly name: string;
  /** The line in which the sentence names them. */
  readonly line?: LineName;
}

/** Of a tied note only the first head that sounds at the place. */
export const once = (notes: readonly Note[]): readonly Note[] =>
  notes.filter(note => !notes.some(other => other.tiedTo === note.id));

export const pointed = (name: NoteName, line: LineName | undefined, place: Place): Subject<PointedNotes> => {
  const of = line === undefined ? '' : ` in ${printLine(line)}`;
  const print = (): string => `the ${printNoteName(name)}${of} of ${printPlace(place)}`;
  return subjectAt({
    content: { name, place, ...(line === undefined ? {} : { line }) },
    print,
    place,
    again: other => pointed(name, line, other),
    find: (whole, context) => {
      const { score } = context.analysis;
      const { range } = whole;
      const inLine = line === undefined ? undefined : lineSubject(line, place).resolve(context);
      if (inLine?.kind === 'none') return inLine;
      const candidates =
        line === undefined
          ? soundingIn(score, range)
          : (lineNotes(score, line, range) ?? []).map(({ note }) => note);
      const [first, ...rest] = once(candidates.filter(note => isNamed(note, name)));
      if (first === undefined)
        return {
          kind: 'none',
          finding: {
            verdict: 'fails',
            code: 'C0302',
            reason: `there is no ${printNoteName(name)}${of} in ${printPlace(place)}`,
            evidence: [missingEvidence(name, range, 'never sounding', context)],
          },
        };
      return {
        kind: 'found',
        subject: {
          span: whole,
          notes: [first, ...rest],
          name: print(),
          ...(line === undefined ? {} : { line }),
        },
      };
    },
  });
};

/** A note by its name, and by its line where that is said. */
export interface PointedName {
  readonly name: NoteName;
  readonly line?: LineName;
}
/** `the tenor A flat`, `the tenor's A flat`. */
const noteOfLine: Parser<PointedName> = map(
  sequence(quiet(optional(word('the'))), lineNoun, optional(word("'s")), noteName),
  ([, line, , name]) => ({ name, line }),
);
/** A note that the place follows later: `A# resolves to B in bar 2`, `the A# in the bass resolves to B in bar 2`. */
export const pointedName: Parser<PointedName> = rule('PointedName', () =>
  choice<PointedName>(
    map(sequence(quiet(optional(word('the'))), noteName), ([, name]) => ({ name })),
    map(sequence(quiet(optional(word('the'))), noteName, word('in', 'of'), lineName), ([, name, , line]) => ({
      name,
      line,
    })),
    noteOfLine,
  ),
);

/** `the F#5 of bar 3 beat 2`, `the F# in the soprano of bar 3`. */
export const pointedNotes: Parser<Subject<PointedNotes>> = rule('PointedNote', () =>
  choice(
    map(sequence(quiet(optional(word('the'))), noteName, at, placeName), ([, name, , place]) =>
      pointed(name, undefined, place),
    ),
    map(
      sequence(quiet(optional(word('the'))), noteName, word('in', 'of'), lineName, optional(at), placeName),
      ([, name, , line, , place]) => pointed(name, line, place),
    ),
    // `the C of bar 4 in the alto`.
    map(
      sequence(quiet(optional(word('the'))), noteName, at, placeName, word('in'), lineName),
      ([, name, , place, , line]) => pointed(name, line, place),
    ),
    map(sequence(noteOfLine, at, placeName), ([{ name, line }, , place]) => pointed(name, line, place)),
  ),
);
