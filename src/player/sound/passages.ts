import type { NoteEvent, Timeline } from '../../timeline/index.js';

export type PlayedNote = Pick<NoteEvent, 'start' | 'end' | 'midi' | 'velocity' | 'voice'>;

/** A stretch of music without a silence inside. Times are seconds of the lesson. */
export interface Passage {
  readonly start: number;
  /** When its last note has died away. */
  readonly end: number;
  readonly notes: readonly PlayedNote[];
}

/** Time that a released string needs to fall silent. */
const dyingAway = 1.5;
/** A held note is struck again on the way in only where enough of it is left to be heard. */
const worthStriking = 0.15;

/**
 * The music between two moments of the lesson, divided at its silences. A note that already sounds at `from` is struck there. Notes that
 * begin at `until` or later are left out; those before it ring on.
 */
export function passagesBetween(timeline: Timeline, from: number, until: number): readonly Passage[] {
  const notes = timeline.events
    .filter(event => event.kind === 'note')
    .filter(note => note.start < until && (note.start >= from || note.end > from + worthStriking))
    .map(({ start, end, midi, velocity, voice }) => ({
      start: Math.max(start, from),
      end,
      midi,
      velocity,
      voice,
    }));
  const passages: { start: number; end: number; notes: PlayedNote[] }[] = [];
  for (const note of notes.sort((a, b) => a.start - b.start)) {
    const last = passages.at(-1);
    if (last === undefined || note.start > last.end) {
      passages.push({ start: note.start, end: note.end + dyingAway, notes: [note] });
    } else {
      last.notes.push(note);
      last.end = Math.max(last.end, note.end + dyingAway);
    }
  }
  return passages;
}
