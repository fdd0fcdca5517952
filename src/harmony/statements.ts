import {
  add,
  compare,
  divide,
  fraction,
  isBefore,
  midiOf,
  multiply,
  staffStepOf,
  subtract,
} from '../score/index.js';
import type { Fraction, Note } from '../score/index.js';
import type { Sequence } from './model.js';

/** Share of the notes that a copy must keep where somebody calls it one: the last copy of a sequence is often bent towards the cadence. */
const mostKept = 0.8;

/** A struck note with its place in its statement. */
interface Struck {
  readonly note: Note;
  readonly offset: string;
}

const within = (n: number, octave: number): number => ((n % octave) + octave) % octave;
const letterOf = (note: Note): number => within(staffStepOf(note.pitch), 7);

/** Those of the notes that are struck from `start` until before `end`; ornaments are no part of a model. */
function struckIn(notes: readonly Note[], start: Fraction, end: Fraction): readonly Struck[] {
  return notes
    .filter(
      ({ grace, tiedFrom, onset }) =>
        !grace && tiedFrom === undefined && compare(start, onset) <= 0 && isBefore(onset, end),
    )
    .map(note => {
      const { n, d } = subtract(note.onset, start);
      return { note, offset: `${String(n)}/${String(d)}` };
    });
}

/** Share of `notes` that stand among `others` so many letters higher. */
function shareIn(notes: readonly Struck[], others: readonly Struck[], step: number): number {
  const places = new Set(others.map(({ offset, note }) => `${offset} ${String(letterOf(note))}`));
  const found = notes.filter(({ offset, note }) =>
    places.has(`${offset} ${String((letterOf(note) + step) % 7)}`),
  );
  return found.length / notes.length;
}

const letterStep = (from: Struck, to: Struck): number =>
  staffStepOf(to.note.pitch) - staffStepOf(from.note.pitch);

/** The highest notes of each moment. */
function upperLine(notes: readonly Struck[]): readonly Struck[] {
  const tops = new Map<string, Struck>();
  for (const each of notes) {
    const top = tops.get(each.offset);
    if (top === undefined || midiOf(each.note.pitch) > midiOf(top.note.pitch)) tops.set(each.offset, each);
  }
  return [...tops.values()];
}

/** Whether the upper line of a copy goes up and down with its model: chords that merely come again in another order do not. */
function sharesContour(model: readonly Struck[], copy: readonly Struck[], keptShare: number): boolean {
  const line = upperLine(model);
  const other = new Map(upperLine(copy).map(each => [each.offset, each]));
  const shifts = line.map(each => {
    const to = other.get(each.offset);
    return to === undefined ? undefined : letterStep(each, to);
  });
  const often = Math.max(
    ...shifts.map(shift => shifts.filter(each => each !== undefined && each === shift).length),
  );
  return often >= keptShare * line.length;
}

/** Steps (1 to 6, upward) from one stretch to the next of the same length, where the second copies the first on other steps. */
function stepBetween(
  model: readonly Struck[],
  copy: readonly Struck[],
  keptShare: number,
): number | undefined {
  if (model.length === 0 || copy.length === 0 || !sharesContour(model, copy, keptShare)) return undefined;
  return [1, 2, 3, 4, 5, 6].find(
    step => Math.min(shareIn(model, copy, step), shareIn(copy, model, 7 - step)) >= keptShare,
  );
}

const topOf = (events: readonly Struck[]): Note | undefined =>
  events.reduce<Note | undefined>(
    (top, { note }) => (top === undefined || midiOf(note.pitch) > midiOf(top.pitch) ? note : top),
    undefined,
  );

/** Whether every copied note keeps its distance in semitones too. */
function isReal(model: readonly Struck[], copy: readonly Struck[], step: number): boolean {
  const semitones = new Set(
    model.flatMap(({ offset, note }) => {
      const found = copy.find(
        other => other.offset === offset && letterOf(other.note) === (letterOf(note) + step) % 7,
      );
      return found === undefined ? [] : [within(midiOf(found.note.pitch) - midiOf(note.pitch), 12)];
    }),
  );
  return semitones.size <= 1;
}

/** A stretch cut into equal statements: a sequence where each copies the one before on the same number of steps. */
function cutInto(
  statements: number,
  notes: readonly Note[],
  start: Fraction,
  end: Fraction,
  keptShare: number,
): Sequence | undefined {
  const unit = divide(subtract(end, start), fraction(statements));
  const parts = Array.from({ length: statements }, (_, at) => {
    const from = add(start, multiply(unit, fraction(at)));
    return struckIn(notes, from, add(from, unit));
  });
  const steps = parts.slice(1).map((part, at) => stepBetween(parts[at] ?? [], part, keptShare));
  const [step] = steps;
  const [first, second] = parts;
  if (step === undefined || first === undefined || second === undefined || steps.some(each => each !== step))
    return undefined;
  const from = topOf(first);
  const to = topOf(second);
  const up = from !== undefined && to !== undefined && midiOf(to.pitch) > midiOf(from.pitch);
  const real = parts.slice(1).every((part, at) => isReal(parts[at] ?? [], part, step));
  return { start, unit, statements, step: up ? step : step - 7, real };
}

/** What is asked of a stretch: the numbers of statements to be tried, the share of the notes (0 to 1) that each copy must keep. */
export interface Trial {
  readonly counts?: readonly number[];
  readonly keptShare?: number;
}

/**
 * The sequence that a whole stretch is, in its smallest statements; `undefined` where it is none. The notes decide, not the numerals: a tonal
 * copy may change the quality of a chord. `notes` are those of the stretch, or more.
 */
export const sequenceIn = (
  notes: readonly Note[],
  start: Fraction,
  end: Fraction,
  { counts = [8, 6, 5, 4, 3, 2], keptShare = mostKept }: Trial = {},
): Sequence | undefined =>
  counts
    .map(statements => cutInto(statements, notes, start, end, keptShare))
    .find(each => each !== undefined);
