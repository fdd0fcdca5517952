import { add, compare, greatest, isBefore, subtract, zero } from '../../score/index.js';
import type { Fraction, Note, Score } from '../../score/index.js';
import type { Range } from '../model.js';

const longest = new WeakMap<Score, Fraction>();

/** The longest written note: bounds how far back a sounding note can have begun. */
function longestNote(score: Score): Fraction {
  const known = longest.get(score);
  if (known !== undefined) return known;
  const found = score.notes.reduce((most, note) => greatest(most, note.duration), zero);
  longest.set(score, found);
  return found;
}

/** Index of the first note whose onset is not before a moment. */
function firstFrom(notes: readonly Note[], moment: Fraction): number {
  let low = 0;
  let high = notes.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const note = notes[middle];
    if (note !== undefined && isBefore(note.onset, moment)) low = middle + 1;
    else high = middle;
  }
  return low;
}

export const noteEnd = (note: Note): Fraction => add(note.onset, note.duration);

/** When a note stops to sound, through all its ties. */
export function soundEnd(note: Note, score: Score): Fraction {
  let last = note;
  while (last.tiedTo !== undefined) {
    const next = score.notes[last.tiedTo];
    if (next === undefined) break;
    last = next;
  }
  return noteEnd(last);
}

/**
 * Note heads that sound within a range, grace notes of the range among them; at a moment (`start = end`) those that
 * sound there. In the order of the score: by onset, then from low to high.
 */
export function soundingIn(score: Score, { start, end }: Range): readonly Note[] {
  const isMoment = compare(start, end) === 0;
  const found: Note[] = [];
  for (let at = firstFrom(score.notes, subtract(start, longestNote(score))); at < score.notes.length; at++) {
    const note = score.notes[at];
    if (note === undefined) break;
    const begins = compare(note.onset, end);
    if (begins > 0 || (begins === 0 && !isMoment)) break;
    if (isBefore(start, noteEnd(note)) || (note.grace && compare(note.onset, start) === 0)) found.push(note);
    else if (note.grace && compare(note.onset, start) > 0) found.push(note);
  }
  return found;
}

/** The head at which a tied note was struck. */
export function struckHead(note: Note, notes: readonly Note[]): Note {
  let first = note;
  while (first.tiedFrom !== undefined) {
    const before = notes[first.tiedFrom];
    if (before === undefined) break;
    first = before;
  }
  return first;
}
