import type { Sequence } from '../../harmony/index.js';
import { add, divide, fraction, midiOf, multiply, staffStepOf, subtract } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { ClaimContext, Range } from '../model.js';
import { eventsOf, withinOctave } from '../subjects/events.js';
import type { Event } from '../subjects/events.js';

/** Share of the notes that a copy must keep: the last copy of a sequence is often bent towards the cadence. */
const keptShare = 0.8;

const letterOf = (note: Note): number => withinOctave(staffStepOf(note.pitch), 7);

/** Steps (1 to 6, upward) from one stretch to the next of the same length, where the second copies the first on other steps. */
function stepBetween(model: readonly Event[], copy: readonly Event[]): number | undefined {
  if (model.length === 0 || copy.length === 0) return undefined;
  const copied = new Set(copy.map(({ offset, note }) => `${offset} ${String(letterOf(note))}`));
  const share = (step: number): number =>
    model.filter(({ offset, note }) => copied.has(`${offset} ${String((letterOf(note) + step) % 7)}`))
      .length / model.length;
  const step = [1, 2, 3, 4, 5, 6].find(each => share(each) >= keptShare);
  const alike = Math.abs(model.length - copy.length) <= (1 - keptShare) * Math.max(model.length, copy.length);
  return alike ? step : undefined;
}

const topOf = (events: readonly Event[]): Note | undefined =>
  events.reduce<Note | undefined>(
    (top, { note }) => (top === undefined || midiOf(note.pitch) > midiOf(top.pitch) ? note : top),
    undefined,
  );

/** Whether every copied note keeps its distance in semitones too. */
function isReal(model: readonly Event[], copy: readonly Event[], step: number): boolean {
  const semitones = new Set(
    model.flatMap(({ offset, note }) => {
      const found = copy.find(
        other => other.offset === offset && letterOf(other.note) === (letterOf(note) + step) % 7,
      );
      return found === undefined ? [] : [withinOctave(midiOf(found.note.pitch) - midiOf(note.pitch), 12)];
    }),
  );
  return semitones.size <= 1;
}

/** A stretch cut into equal statements: a sequence where each copies the one before on the same number of steps. */
function cutInto(statements: number, { start, end }: Range, context: ClaimContext): Sequence | undefined {
  const unit = divide(subtract(end, start), fraction(statements));
  const parts = Array.from({ length: statements }, (_, at) => {
    const from = add(start, multiply(unit, fraction(at)));
    return eventsOf({ start: from, end: add(from, unit) }, undefined, context) ?? [];
  });
  const steps = parts.slice(1).map((part, at) => stepBetween(parts[at] ?? [], part));
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

/** The sequence that a whole stretch is, in its smallest statements; `undefined` where it is none. Notes decide, not numerals. */
export const sequenceOf = (range: Range, context: ClaimContext): Sequence | undefined =>
  [8, 6, 5, 4, 3, 2].map(statements => cutInto(statements, range, context)).find(each => each !== undefined);
