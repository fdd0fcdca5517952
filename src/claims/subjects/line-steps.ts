import { midiOf, printPitch, staffStepOf } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import { withArticle } from '../terms/chord-name.js';
import { intervalBetween, printInterval } from '../terms/interval-name.js';
import type { IntervalName } from '../terms/interval-name.js';
import type { Line } from './line.js';

/** From one note of a line to the next that has another pitch. */
export interface Step {
  readonly from: Note;
  readonly to: Note;
  readonly up: boolean;
  readonly size: IntervalName;
}

/** The move from a note to another; `undefined` where it is the same pitch. */
export function stepBetween(from: Note, to: Note): Step | undefined {
  const up = midiOf(to.pitch) - midiOf(from.pitch) || staffStepOf(to.pitch) - staffStepOf(from.pitch);
  return up === 0 ? undefined : { from, to, up: up > 0, size: intervalBetween(from.pitch, to.pitch) };
}

/** The moves of a line, repeated notes left out. */
export const stepsOf = (line: Line): readonly Step[] =>
  line.notes.slice(1).flatMap(({ note: to }, at) => {
    const from = line.notes[at]?.note;
    return from === undefined ? [] : (stepBetween(from, to) ?? []);
  });

/** A second, major or minor, or a chromatic semitone; an augmented second is a leap. */
export const isStep = ({ size }: Step): boolean => size.steps <= 1 && Math.abs(size.semitones) <= 2;
export const isSemitone = ({ size }: Step): boolean => Math.abs(size.semitones) === 1;

/** An interval as a line makes it: on one letter it is a chromatic semitone, and no augmented unison. */
export const printMove = (size: IntervalName): string =>
  size.steps === 0 && size.semitones === 1 ? 'chromatic semitone' : printInterval(size);

/** `D#5-A5, a diminished fifth up`. */
export const sayStep = ({ from, to, size, up }: Step): string =>
  `${printPitch(from.pitch)}-${printPitch(to.pitch)}, ${withArticle(printMove(size))} ${up ? 'up' : 'down'}`;
