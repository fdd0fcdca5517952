import {
  add,
  compare,
  equals,
  fraction,
  isBefore,
  letters,
  multiply,
  spell,
  subtract,
} from '../score/index.js';
import type { Bar, Fraction, Note, Score } from '../score/index.js';
import type { Analysis, Segment, Sequence } from './model.js';
import { sequenceIn } from './statements.js';

/** Fewest statements of a model of harmonies alone: the model and two copies (one copy may be chance where the notes differ). */
const fewestStatements = 3;

/** Bars that a model may span whose notes are copied; a longer one is a phrase that comes again in another key. */
const longestModel = 2;

const letterStep = (from: Segment, to: Segment): number => {
  const index = (segment: Segment): number => letters.indexOf(spell(segment.chord.root).letter);
  const step = (((index(to) - index(from)) % 7) + 7) % 7;
  return step > 3 ? step - 7 : step;
};

const length = (segment: Segment): Fraction => subtract(segment.end, segment.start);

/** Whether `b` is the same pattern of harmonies as `a`, `step` letters away: roots, lengths and inversions. */
function copies(a: readonly Segment[], b: readonly Segment[], step: number): boolean {
  return a.every((segment, at) => {
    const other = b[at];
    return (
      other !== undefined &&
      letterStep(segment, other) === step &&
      compare(length(segment), length(other)) === 0 &&
      segment.chord.inversion === other.chord.inversion
    );
  });
}

/** A model of two to four harmonies, repeated at another step with the same lengths and inversions. */
function harmonicSequences(segments: readonly Segment[]): readonly Sequence[] {
  const found: Sequence[] = [];
  for (let from = 0; from < segments.length;) {
    let best: { sequence: Sequence; count: number } | undefined;
    for (let size = 2; size <= 4; size++) {
      const model = segments.slice(from, from + size);
      const next = segments.slice(from + size, from + 2 * size);
      const [first] = model;
      const [firstCopy] = next;
      if (first === undefined || firstCopy === undefined || next.length < size) continue;
      const step = letterStep(first, firstCopy);
      if (step === 0) continue;
      let statements = 1;
      let real = true;
      while (
        copies(
          model,
          segments.slice(from + statements * size, from + (statements + 1) * size),
          ((((step * statements + 3) % 7) + 7) % 7) - 3,
        )
      ) {
        const copy = segments.slice(from + statements * size, from + (statements + 1) * size);
        real &&= model.every((segment, at) => segment.chord.quality === copy[at]?.chord.quality);
        statements++;
      }
      if (statements < fewestStatements) continue;
      const unit = subtract(firstCopy.start, first.start);
      if (best === undefined || statements * size > best.count) {
        best = { sequence: { start: first.start, unit, statements, step, real }, count: statements * size };
      }
    }
    if (best === undefined) from++;
    else {
      found.push(best.sequence);
      from += best.count;
    }
  }
  return found;
}

/** Where the last statement of a sequence ends. */
export const sequenceEnd = ({ start, unit, statements }: Sequence): Fraction =>
  add(start, multiply(unit, fraction(statements)));

/** Whether a harmony changes within the model: a figure that is moved with its one chord is no sequence yet. */
export const hasProgression = (
  { segments }: Pick<Analysis, 'segments'>,
  { start, unit }: Pick<Sequence, 'start' | 'unit'>,
): boolean =>
  new Set(
    segments
      .filter(segment => isBefore(segment.start, add(start, unit)) && isBefore(start, segment.end))
      .map(({ chord }) => chord.root),
  ).size > 1;

/** A model of one or two bars, note by note repeated at another step. */
function copiedBars({ bars, notes }: Score, segments: readonly Segment[]): readonly Sequence[] {
  const notesOf = new Map<number, Note[]>();
  for (const note of notes) notesOf.set(note.bar, [...(notesOf.get(note.bar) ?? []), note]);
  const copied = (from: number, size: number): Sequence | undefined => {
    const stretch = bars.slice(from, from + 2 * size);
    const [first] = stretch;
    const last = stretch.at(-1);
    const isEven = (bar: Bar): boolean => first !== undefined && equals(bar.length, first.length);
    if (first === undefined || last === undefined || stretch.length < 2 * size || !stretch.every(isEven))
      return undefined;
    const within = stretch.flatMap((_, at) => notesOf.get(from + at) ?? []);
    return sequenceIn(within, first.start, add(last.start, last.length), { counts: [2], keptShare: 1 });
  };
  const found: Sequence[] = [];
  for (let from = 0; from < bars.length;) {
    let past = from + 1;
    for (let size = 1; size <= longestModel; size++) {
      const model = copied(from, size);
      if (model === undefined || !hasProgression({ segments }, model)) continue;
      let statements = 2;
      while (copied(from + (statements - 1) * size, size)?.step === model.step) statements++;
      found.push({ ...model, statements });
      past = from + statements * size;
      break;
    }
    from = past;
  }
  return found;
}

/**
 * The sequences of a piece: a progression repeated at another step, as harmonies or note by note (common practice: a model and its copies, real
 * where every interval is kept, else tonal). In order of time; where both find one the harmonies count.
 */
export function sequencesOf(score: Score, segments: readonly Segment[]): readonly Sequence[] {
  const harmonic = harmonicSequences(segments);
  const overlaps = (a: Sequence, b: Sequence): boolean =>
    isBefore(a.start, sequenceEnd(b)) && isBefore(b.start, sequenceEnd(a));
  return [
    ...harmonic,
    ...copiedBars(score, segments).filter(copy => !harmonic.some(other => overlaps(copy, other))),
  ].sort((a, b) => compare(a.start, b.start));
}

/** The sequence that is under way at an onset. */
export const sequenceAt = (sequences: readonly Sequence[], onset: Fraction): Sequence | undefined =>
  sequences.find(sequence => compare(sequence.start, onset) <= 0 && isBefore(onset, sequenceEnd(sequence)));
