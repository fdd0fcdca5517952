import { add, compare, greatest, isBefore, least, printPitch, subtract } from '../../score/index.js';
import type { Bar, Note, Score } from '../../score/index.js';
import type { Range } from '../model.js';
import { endOf } from '../place/beats.js';
import { soundingIn } from '../subjects/sounding.js';
import { alignBars } from './alignment.js';
import type { Aligned } from './alignment.js';

/** A note of one version that the other does not have at the same place with the same length. */
export interface Differences {
  /** Only in this version. */
  readonly here: readonly Note[];
  /** Only in the other. */
  readonly there: readonly Note[];
}

/** Place within a range, pitch and length: what makes two notes the same, whatever their voices. */
function keyOf(note: Note, { start }: Range): string {
  const offset = subtract(note.onset, start);
  const tie = note.tiedFrom === undefined ? '' : 'held';
  return `${String(offset.n)}/${String(offset.d)} ${printPitch(note.pitch)} ${String(note.duration.n)}/${String(note.duration.d)} ${tie}`;
}

const startingIn = (score: Score, range: Range): readonly Note[] =>
  soundingIn(score, range).filter(
    note => compare(range.start, note.onset) <= 0 && isBefore(note.onset, range.end),
  );

function without(
  notes: readonly Note[],
  range: Range,
  others: readonly Note[],
  otherRange: Range,
): readonly Note[] {
  const left = new Map<string, number>();
  for (const note of others) {
    const key = keyOf(note, otherRange);
    left.set(key, (left.get(key) ?? 0) + 1);
  }
  return notes.filter(note => {
    const key = keyOf(note, range);
    const number = left.get(key) ?? 0;
    left.set(key, number - 1);
    return number <= 0;
  });
}

/** What the same place has in one version and not in the other. */
export function differencesOf(score: Score, range: Range, other: Score, otherRange: Range): Differences {
  const mine = startingIn(score, range);
  const theirs = startingIn(other, otherRange);
  return { here: without(mine, range, theirs, otherRange), there: without(theirs, otherRange, mine, range) };
}

const rangeOf = (bar: Bar): Range => ({ start: bar.start, end: endOf(bar) });

const contentOf = (score: Score, bar: Bar): string =>
  startingIn(score, rangeOf(bar))
    .map(note => keyOf(note, rangeOf(bar)))
    .sort()
    .join(';');

/** Whether two bars have the same notes at the same places. */
export const isSameBar = (score: Score, bar: Bar, other: Score, otherBar: Bar): boolean =>
  contentOf(score, bar) === contentOf(other, otherBar);

/** Two bars side by side and what differs between them. */
export interface ComparedBars {
  readonly bars: Aligned;
  readonly differences: Differences;
}

/** A place of one version beside the same music of the other. */
export interface Compared extends Differences {
  /** Printed numbers of the bars of the other version that stand beside the place. */
  readonly beside: readonly string[];
  /** Whether they have other numbers than here. */
  readonly isMoved: boolean;
  /** What each bar of the place, or the other version between its bars, has for itself. */
  readonly rows: readonly ComparedBars[];
  /** Where they lie in the other version; `undefined` where nothing stands beside the place. */
  readonly where: Range | undefined;
}

/**
 * Compares a place with what stands beside it in the other version: bar by bar as `alignBars` puts them, so that a bar that one version
 * has more does not move all that follow it. A bar that stands alone differs with all its notes.
 */
export function compareAligned(score: Score, range: Range, other: Score): Compared {
  const touched = ({ here }: Aligned): boolean =>
    here !== undefined && isBefore(here.start, range.end) && isBefore(range.start, endOf(here));
  const rows = alignBars(score, other);
  const first = rows.findIndex(touched);
  const last = rows.findLastIndex(touched);
  const beside = first < 0 ? [] : rows.slice(first, last + 1);
  const found = beside.map(({ here, there }): Differences => {
    const whole = here === undefined ? undefined : rangeOf(here);
    if (here === undefined || whole === undefined)
      return { here: [], there: there === undefined ? [] : startingIn(other, rangeOf(there)) };
    const part = { start: greatest(whole.start, range.start), end: least(whole.end, range.end) };
    if (there === undefined) return { here: startingIn(score, part), there: [] };
    return differencesOf(score, part, other, {
      start: add(there.start, subtract(part.start, here.start)),
      // The last bar may be longer in the other version.
      end:
        compare(part.end, whole.end) === 0 ? endOf(there) : add(there.start, subtract(part.end, here.start)),
    });
  });
  const partners = beside.flatMap(({ there }) => there ?? []);
  const [from, to] = [partners[0], partners.at(-1)];
  return {
    rows: beside.flatMap((bars, at) => {
      const differences = found[at];
      return differences === undefined ? [] : [{ bars, differences }];
    }),
    here: found.flatMap(each => each.here),
    there: found.flatMap(each => each.there),
    beside: beside.flatMap(({ there }) => there?.label ?? []),
    where: from === undefined || to === undefined ? undefined : { start: from.start, end: endOf(to) },
    isMoved: beside.some(({ here, there }) => there !== undefined && here?.label !== there.label),
  };
}
