import { compare, midiOf, staffStepOf } from '../../score/index.js';
import type { Note, Score } from '../../score/index.js';
import type { Subject } from '../claim.js';
import { choice, map, rule, sequence } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Range } from '../model.js';
import { at, before, placeName, printPlace } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { lineName, printLine } from './line-name.js';
import type { LineName } from './line-name.js';
import { describeLines, hasOwnBass, lineNotes } from './line-notes.js';
import type { LineNote } from './line-notes.js';
import { figureOf } from './figures.js';
import { inversionsOf } from './harmonies.js';
import { liesIn } from '../segments.js';
import { soundingIn } from './sounding.js';
import type { Span } from './span.js';
import { subjectAt } from './subject-at.js';

/** One line of the texture over a stretch of the score. */
export interface Line {
  readonly line: LineName;
  readonly span: Span;
  /** In time order. */
  readonly notes: readonly LineNote[];
  /** `the bass of bar 3`. */
  readonly name: string;
}

const partNeighbours = {
  soprano: ['alto'],
  alto: ['soprano', 'tenor'],
  tenor: ['alto', 'bass'],
  bass: ['tenor'],
} as const;

/** The lines that are taken for one another: the neighbouring part, the other hand, another voice. */
function otherLines(line: LineName, context: ClaimContext): readonly LineName[] {
  switch (line.kind) {
    case 'part':
      return partNeighbours[line.part].map(part => ({ kind: 'part', part }));
    case 'hand':
      return [{ kind: 'hand', hand: line.hand === 'right' ? 'left' : 'right' }];
    case 'voice':
      return context.analysis.score.voices
        .filter(voice => voice.overlayOf === undefined && voice.id !== line.name && voice.name !== line.name)
        .map(voice => ({ kind: 'voice', name: voice.id }));
    case 'edge':
    case 'instrument':
      return [];
  }
}

/** The bass, by whatever name. */
const isBass = (line: LineName): boolean =>
  (line.kind === 'part' && line.part === 'bass') || (line.kind === 'edge' && line.edge === 'bottom');

/** A second, up or down. */
const isStep = (a: LineNote, b: LineNote): boolean =>
  Math.abs(staffStepOf(a.note.pitch) - staffStepOf(b.note.pitch)) === 1;

/**
 * Without what a line of an upper staff plays alone while the bass rests: an upbeat after a general rest is no bass (common practice: the rest
 * of the bass is a rest).
 */
function withoutSolo(notes: readonly LineNote[], score: Score): readonly LineNote[] {
  const lowest = Math.max(...score.voices.map(({ staff }) => staff));
  const isLow = ({ note }: LineNote): boolean =>
    score.voices.find(({ id }) => id === note.voice)?.staff === lowest;
  if (!notes.some(isLow)) return notes;
  return notes.filter(each => isLow(each) || soundingIn(score, each).some(other => other !== each.note));
}

/** The lowest note of a harmony, and what moves on from it by step. */
function bassOf(harmony: Range, notes: readonly LineNote[]): readonly LineNote[] {
  const during = notes.filter(({ start }) => liesIn(start, harmony));
  const lowest = during.reduce<LineNote | undefined>(
    (low, each) => (low === undefined || midiOf(each.note.pitch) < midiOf(low.note.pitch) ? each : low),
    undefined,
  );
  if (lowest === undefined) return [];
  const kept = [lowest];
  for (const note of during.slice(during.indexOf(lowest) + 1)) {
    const before = kept.at(-1) ?? lowest;
    if (isStep(before, note)) kept.push(note);
    else kept[kept.length - 1] = { ...before, end: note.end };
  }
  return kept;
}

const lower = (a: Note, b: Note): Note => (midiOf(a.pitch) <= midiOf(b.pitch) ? a : b);

/** Broken chords and octaves by their lowest notes, each as long as the figure lasts, and the notes that stand in none. */
function figureBasses(
  notes: readonly LineNote[],
  { analysis }: ClaimContext,
): { readonly basses: readonly LineNote[]; readonly others: readonly LineNote[] } {
  const basses: LineNote[] = [];
  const others: LineNote[] = [];
  for (const each of notes) {
    const figure = figureOf(each.note, analysis);
    const last = basses.at(-1);
    if (figure === undefined || figure.kind === 'after-beats') others.push(each);
    else if (last !== undefined && figure.notes.includes(last.note))
      basses[basses.length - 1] = { ...last, note: lower(last.note, each.note), end: each.end };
    else basses.push(each);
  }
  return { basses, others };
}

/**
 * The notes that make the bass: in a texture of bass notes and chords the lowest note of each harmony and what moves on from it by step,
 * but not the accompaniment that is struck above it; of broken chords and octaves the lowest notes. Where the bass is a voice of its own, that
 * voice.
 */
function essential(line: LineName, notes: readonly LineNote[], context: ClaimContext): readonly LineNote[] {
  const { score, segments } = context.analysis;
  if (!isBass(line)) return notes;
  const accompanied = withoutSolo(notes, score);
  if (hasOwnBass(score) || segments.length === 0) return accompanied;
  const { basses, others } = figureBasses(accompanied, context);
  // A seventh that comes in with an after-beat brings no new bass.
  return [...basses, ...inversionsOf(segments).flatMap(harmony => bassOf(harmony, others))].sort((a, b) =>
    compare(a.start, b.start),
  );
}

/** The notes of a line in a range, of the bass those that make it; `undefined` where the score has no such line. */
export function essentialNotes(
  line: LineName,
  range: Range,
  context: ClaimContext,
): readonly LineNote[] | undefined {
  const notes = lineNotes(context.analysis.score, line, range);
  return notes === undefined ? undefined : essential(line, notes, context);
}

export const lineSubject = (line: LineName, place: Place): Subject<Line> => {
  const print = (): string => `${printLine(line)} of ${printPlace(place)}`;
  const subject = subjectAt<Line>({
    content: { line, place },
    print,
    place,
    again: other => lineSubject(line, other),
    find: (whole, context) => {
      const notes = essentialNotes(line, whole.range, context);
      if (notes === undefined)
        return {
          kind: 'none',
          finding: {
            verdict: 'undecided',
            code: 'C0006',
            reason: `the score has no line that is called ${printLine(line)}: ${describeLines(context.analysis.score)}`,
            evidence: [],
          },
        };
      return {
        kind: 'found',
        subject: { line, span: whole, notes, name: print() },
      };
    },
  });
  return {
    ...subject,
    neighbours: context => [
      ...otherLines(line, context).map(other => lineSubject(other, place)),
      ...subject.neighbours(context),
    ],
  };
};

/** `the bass of bar 3`, `in bar 3 the bass`, `bar 3 soprano`. */
export const lineSubjectName: Parser<Subject<Line>> = rule('LineOfAPlace', () =>
  choice(
    map(sequence(lineName, at, placeName), ([line, , place]) => lineSubject(line, place)),
    map(sequence(before, lineName), ([place, line]) => lineSubject(line, place)),
  ),
);
