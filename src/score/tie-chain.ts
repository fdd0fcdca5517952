import { add, type Fraction } from './fraction.js';
import type { Note, Score } from './model.js';

/** The note and everything that is tied on to it, in order. */
export function tieChain(score: Score, note: Note): readonly Note[] {
  const chain = [note];
  for (let next = note.tiedTo; next !== undefined;) {
    const tied = score.notes[next];
    if (tied === undefined || chain.length > score.notes.length) break;
    chain.push(tied);
    next = tied.tiedTo;
  }
  return chain;
}

/** When the note stops sounding: its own end, or that of the last note it is tied to. */
export function soundingUntil(score: Score, note: Note): Fraction {
  const last = tieChain(score, note).at(-1) ?? note;
  return add(last.onset, last.duration);
}
