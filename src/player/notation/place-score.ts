import type { PageNote, PageScore } from '../../timeline/index.js';
import type { DrawnHead, DrawnItem, DrawnSystem } from './engrave.js';

export interface BarPlace {
  readonly system: number;
  readonly left: number;
  readonly right: number;
}

export interface NotePlace {
  readonly system: number;
  readonly head: DrawnHead;
}

export interface Moment {
  readonly system: number;
  readonly x: number;
}

/** Where the parts of a score ended up in its engraving. */
export interface Placement {
  /** In the order of `PageScore.bars`; a bar that was not drawn has no place. */
  readonly bars: readonly (BarPlace | undefined)[];
  /** In the order of `PageScore.notes`. */
  readonly notes: readonly (NotePlace | undefined)[];
  /** Where a moment of the score stands, in whole notes from its start. */
  readonly momentAt: (onset: number) => Moment | undefined;
}

/** Room between the first note of a line, accidental and all, and the edge of its bar. */
const lead = 7;

/** Steps on the staff, low to high; sounding octave is enough because one chord has one clef. */
function heightOf({ pitch }: PageNote): number {
  return Number(/-?\d+$/.exec(pitch)?.[0] ?? 0) * 7 + 'CDEFGAB'.indexOf(pitch.charAt(0));
}

interface Extent {
  readonly system: number;
  readonly from: number;
  readonly to: number;
}

const widened = (extent: Extent | undefined, system: number, item: DrawnItem): Extent =>
  extent === undefined || extent.system !== system
    ? (extent ?? { system, from: item.leftmost, to: item.x + item.width })
    : { system, from: Math.min(extent.from, item.leftmost), to: Math.max(extent.to, item.x + item.width) };

function barPlace(extent: Extent, drawn: DrawnSystem): BarPlace {
  const lines = drawn.voices.flatMap(voice => voice.filter(item => item.kind === 'bar'));
  const before = lines.filter(line => line.x < extent.from).map(line => line.x + line.width);
  const after = lines.filter(line => line.x >= extent.from + 1).map(line => line.x + line.width);
  return {
    system: extent.system,
    left: before.length > 0 ? Math.max(...before) : extent.from - lead,
    right: after.length > 0 ? Math.min(...after) : drawn.right,
  };
}

/** The last of `moments` at or before `onset`; `moments` are sorted. */
function indexAt(moments: readonly { readonly onset: number }[], onset: number): number {
  let low = 0;
  let high = moments.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((moments[middle]?.onset ?? 0) <= onset + 1e-9) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/** Finds every bar, note and moment of the score in its engraving, through the offsets that both carry. */
export function placeScore(score: PageScore, systems: readonly DrawnSystem[]): Placement {
  const byOffset = score.notes.map((note, id) => ({ note, id })).sort((a, b) => a.note.at - b.note.at);
  const items = systems
    .flatMap((drawn, system) => drawn.voices.flatMap(voice => voice.map(item => ({ item, system }))))
    .filter(({ item }) => item.kind === 'note')
    .sort((a, b) => a.item.from - b.item.from);
  const notes = new Array<NotePlace | undefined>(score.notes.length).fill(undefined);
  const extents = new Map<number, Extent>();
  const onsets = new Map<number, Moment>();
  let next = 0;
  for (const { item, system } of items) {
    while ((byOffset[next]?.note.at ?? Infinity) < item.from) next++;
    const chord: { note: PageNote; id: number }[] = [];
    for (let at = next; ; at++) {
      const here = byOffset[at];
      if (here === undefined || here.note.at >= item.to) break;
      if (here.note.duration > 0) chord.push(here);
    }
    chord.sort((a, b) => heightOf(a.note) - heightOf(b.note));
    for (const [index, { note, id }] of chord.entries()) {
      const head = item.heads[index];
      if (head !== undefined) notes[id] = { system, head };
      extents.set(note.bar, widened(extents.get(note.bar), system, item));
      const known = onsets.get(note.onset);
      if (known === undefined || item.x < known.x) onsets.set(note.onset, { system, x: item.x });
    }
    if (chord.length === 0) {
      const bar = score.bars.findIndex(({ from, to }) => from <= item.from && item.from < to);
      if (bar >= 0) extents.set(bar, widened(extents.get(bar), system, item));
    }
  }
  const moments = [...onsets]
    .map(([onset, moment]) => ({ onset, ...moment }))
    .sort((a, b) => a.onset - b.onset);
  return {
    notes,
    bars: score.bars.map((_, bar) => {
      const extent = extents.get(bar);
      const drawn = extent === undefined ? undefined : systems[extent.system];
      return extent === undefined || drawn === undefined ? undefined : barPlace(extent, drawn);
    }),
    momentAt: onset => {
      const at = indexAt(moments, onset);
      const here = moments[at];
      const after = moments[at + 1];
      if (here === undefined) return undefined;
      if (after === undefined || after.system !== here.system || onset - here.onset < 1e-9) return here;
      const share = (onset - here.onset) / (after.onset - here.onset);
      return { system: here.system, x: here.x + share * (after.x - here.x) };
    },
  };
}
