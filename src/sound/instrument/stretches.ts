import type { PlayedNote } from './play-notes.js';

/** Notes that are rendered together, since they sound together or one shortly after another. */
export interface Stretch<T> {
  /** When the first of them is struck, in seconds. */
  readonly start: number;
  readonly notes: readonly T[];
}

/** A silence between notes that parts two stretches, in seconds: what lies between two passages of a lesson is longer. */
const partingSilence = 0.3;

/** Cuts notes into stretches at the silences between them, in order. */
export function stretchesOf<T extends Pick<PlayedNote, 'start' | 'end'>>(
  notes: readonly T[],
): readonly Stretch<T>[] {
  const stretches: { readonly start: number; end: number; readonly notes: T[] }[] = [];
  for (const note of notes.toSorted((a, b) => a.start - b.start)) {
    const open = stretches.at(-1);
    if (open === undefined || note.start - open.end > partingSilence)
      stretches.push({ start: note.start, end: note.end, notes: [note] });
    else {
      open.notes.push(note);
      open.end = Math.max(open.end, note.end);
    }
  }
  return stretches;
}
