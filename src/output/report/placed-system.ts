import { staffStepOf, toNumber } from '../../score/index.js';
import type { Note, NoteId, Score } from '../../score/index.js';
import type { DrawnItem, DrawnSystem } from './engraver.js';

/** A line of the score that knows where its notes, bars and moments are. */
export interface PlacedSystem extends DrawnSystem {
  /** Indexes into `Score.bars`. */
  readonly firstBar: number;
  readonly lastBar: number;
  /** Middle of each note head; a note without one was not drawn. */
  readonly heads: ReadonlyMap<NoteId, { readonly x: number; readonly y: number }>;
  /** Where the last moment at or before an onset (in whole notes) stands. */
  readonly xAt: (onset: number) => number | undefined;
  /** Right edge of a bar. */
  readonly barEnd: (bar: number) => number;
}

/** Finds the notes of a line in its drawing, through the offsets in the source that both carry. */
export function placeSystem(
  score: Score,
  drawn: DrawnSystem,
  firstBar: number,
  lastBar: number,
): PlacedSystem {
  const notes = score.notes
    .filter(note => !note.grace && note.bar >= firstBar && note.bar <= lastBar)
    .sort((a, b) => a.span.start - b.span.start);
  const items = [...drawn.items].sort((a, b) => a.from - b.from);
  const heads = new Map<NoteId, { readonly x: number; readonly y: number }>();
  const moments = new Map<number, number>();
  const starts = new Map<number, number>();
  let next = 0;
  for (const item of items) {
    while ((notes[next]?.span.start ?? Infinity) < item.from) next += 1;
    const chord: Note[] = [];
    for (let at = next; (notes[at]?.span.start ?? Infinity) < item.to; at++)
      chord.push(...notes.slice(at, at + 1));
    // A chord has one clef, so that the order of its heads is that of its notes.
    chord.sort((a, b) => staffStepOf(a.pitch) - staffStepOf(b.pitch));
    chord.forEach((note, index) => {
      const head = item.heads[index];
      if (head !== undefined) heads.set(note.id, head);
      least(moments, toNumber(note.onset), headLeft(item));
      least(starts, note.bar, item.left);
    });
  }
  const sorted = [...moments].sort(([a], [b]) => a - b);
  return {
    ...drawn,
    firstBar,
    lastBar,
    heads,
    xAt: onset => (sorted.findLast(([at]) => at <= onset + 1e-9) ?? sorted[0])?.[1],
    barEnd: bar => {
      const following = starts.get(bar + 1);
      const ends =
        following === undefined ? [drawn.staves.right] : drawn.barLines.filter(x => x <= following + 1);
      return ends.at(-1) ?? drawn.staves.right;
    },
  };
}

/** Labels stand under the heads, not under the accidentals before them. */
const headLeft = ({ left, heads }: DrawnItem): number =>
  heads.length === 0 ? left : Math.min(...heads.map(({ x }) => x)) - 5;

function least(values: Map<number, number>, key: number, value: number): void {
  values.set(key, Math.min(value, values.get(key) ?? Infinity));
}
