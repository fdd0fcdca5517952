import type { Note } from '../score/index.js';
import type { Finding, Judged, Predicate } from './claim.js';
import { family } from './family.js';
import type { Family, Making } from './family.js';
import type { Parser } from './grammar/index.js';
import type { ClaimContext, VerdictWord } from './model.js';
import type { LineName } from './subjects/line-name.js';
import type { Line } from './subjects/line.js';
import type { PointedNotes } from './subjects/note.js';
import type { Span } from './subjects/span.js';
import type { Verb, VerbForm } from './terms/verb.js';

/** What a family finds out about one note. */
export interface NoteFinding<P> extends Judged {
  /** What is true of the note instead. */
  readonly instead?: readonly P[];
}

interface NoteFamilyParts<P extends object> {
  readonly name: string;
  readonly examples: readonly string[];
  readonly phrases: readonly (readonly [verb: Verb, complement: Parser<P>])[];
  readonly print: (says: P, form: VerbForm) => string;
  /** `line`: the one that the sentence names. */
  readonly checkNote: (
    note: Note,
    says: P,
    span: Span,
    context: ClaimContext,
    line?: LineName,
  ) => NoteFinding<P>;
  /** The notes of a line that are meant, where what is said takes several: a suspension has its resolution in it. Absent where all are. */
  readonly meantOf?: (notes: readonly Note[], says: P, context: ClaimContext) => readonly Note[];
}

/** From the best answer to the worst. */
const bestFirst: readonly VerdictWord[] = ['holds', 'arguable', 'undecided', 'fails'];

/**
 * One finding for several notes of a name: what is true of all of them holds, what is untrue of some is arguable until the sentence
 * says which one it means.
 */
function together<S, P>(
  findings: readonly [NoteFinding<P>, ...NoteFinding<P>[]],
  make: (says: P) => Predicate<S>,
): Finding<S> {
  const [first] = findings;
  const best =
    bestFirst.map(word => findings.find(each => each.verdict === word)).find(each => each !== undefined) ??
    first;
  const instead = () => findings.flatMap(each => each.instead ?? []).map(make);
  const other = findings.find(each => each.verdict === 'fails' || each.verdict === 'undecided');
  if (best.verdict !== 'holds' || other === undefined) return { ...best, instead };
  return {
    verdict: 'arguable',
    code: 'C0314',
    reason: `true of one of the notes of that name, not of all: ${other.reason}`,
    evidence: findings.flatMap(each => each.evidence),
    instead,
  };
}

/** Makes a family about single notes, for a note that the sentence names and for the note of a line at a place. */
export function noteFamily<P extends object>(
  parts: NoteFamilyParts<P>,
): { readonly ofNotes: Making<PointedNotes, P>; readonly ofLine: Family<Line> } {
  const { name, examples, phrases, print, checkNote, meantOf } = parts;
  const ofNotes = family<PointedNotes, P>({
    name,
    examples,
    phrases,
    print,
    check: ({ span, notes, line }, says, context, make) => {
      const [first, ...rest] = notes;
      return together(
        [
          checkNote(first, says, span, context, line),
          ...rest.map(note => checkNote(note, says, span, context, line)),
        ],
        make,
      );
    },
  });
  const ofLine = family<Line, P>({
    name: `${name} of a line`,
    examples: [],
    phrases,
    print,
    check: ({ span, notes, name: line }, says, context, make) => {
      const heads = notes.map(({ note }) => note);
      const [first, ...rest] = meantOf?.(heads, says, context) ?? heads;
      if (first === undefined)
        return {
          verdict: 'undecided',
          code: 'C0005',
          reason: `nothing sounds in ${line}`,
          evidence: [],
          pointless: true,
        };
      return together(
        [checkNote(first, says, span, context), ...rest.map(note => checkNote(note, says, span, context))],
        make,
      );
    },
  });
  return { ofNotes, ofLine };
}
