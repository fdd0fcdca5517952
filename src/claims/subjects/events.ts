import { compare, isBefore, midiOf, staffStepOf, subtract } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import type { ClaimContext, Range } from '../model.js';
import type { IntervalName } from '../terms/interval-name.js';
import type { LineName } from './line-name.js';
import { lineNotes } from './line-notes.js';
import { soundEnd, soundingIn } from './sounding.js';

/** A struck note with its place and length within a stretch, to be compared with another stretch. */
export interface Event {
  readonly note: Note;
  readonly offset: string;
  readonly length: string;
}

/** The struck notes of a stretch, ornaments left out; of one line where one is given, `undefined` where the score lacks it. */
export function eventsOf(
  range: Range,
  line: LineName | undefined,
  context: ClaimContext,
): readonly Event[] | undefined {
  const { score } = context.analysis;
  const heads =
    line === undefined ? soundingIn(score, range) : lineNotes(score, line, range)?.map(({ note }) => note);
  return heads
    ?.filter(
      note =>
        !note.grace &&
        note.tiedFrom === undefined &&
        compare(range.start, note.onset) <= 0 &&
        isBefore(note.onset, range.end),
    )
    .map(note => {
      const offset = subtract(note.onset, range.start);
      const end = soundEnd(note, score);
      const length = subtract(isBefore(range.end, end) ? range.end : end, note.onset);
      return {
        note,
        offset: `${String(offset.n)}/${String(offset.d)}`,
        length: `${String(length.n)}/${String(length.d)}`,
      };
    });
}

/** How far a copy lies from its model, up positive. */
export const shiftOf = (model: Note, copy: Note): IntervalName => ({
  steps: staffStepOf(copy.pitch) - staffStepOf(model.pitch),
  semitones: midiOf(copy.pitch) - midiOf(model.pitch),
});

/** `n` within an octave of `of` steps or semitones. */
export const withinOctave = (n: number, of: number): number => ((n % of) + of) % of;
