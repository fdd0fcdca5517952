import type { Score } from '../../score/index.js';
import type { Engraver, Measured } from './engraver.js';
import { lineEnds } from './line-ends.js';
import { placeSystem } from './placed-system.js';
import type { PlacedSystem } from './placed-system.js';

/** Bars of a score by their indexes, both inclusive. */
export interface Passage {
  readonly firstBar: number;
  readonly lastBar: number;
}

/** Room for clefs and signatures at the head of a line, and how much wider than its narrowest setting a bar looks at ease. */
const head = 78;
const ease = 1.75;
/** Lines are a whole number of this wide, so that passages of about the same width are engraved together. */
const widthStep = 90;

interface Wanted extends Passage {
  readonly width: number;
  /** Bars after which a line ends. */
  readonly ends: readonly number[];
}

/**
 * Engraves passages of a score, each in lines of its own that begin and end with it. Passages that do not cut each other are engraved
 * together. In the order of `passages`; nothing where the score cannot be drawn.
 * @param width of the widest line
 */
export function engravePassages(
  engraver: Engraver,
  score: Score,
  passages: readonly Passage[],
  width: number,
): readonly (readonly PlacedSystem[])[] {
  const abc = score.source.text;
  const { parts } = engraver.measure(abc);
  const widths = parts
    .flat()
    .flatMap(({ width: narrowest, bars }) => Array.from({ length: bars }, () => (narrowest * ease) / bars));
  const wanted = passages.map(passage => inLines(passage, widths, width));
  const drawn = new Map<Wanted, readonly PlacedSystem[]>();
  for (const together of compatible(wanted)) {
    const ends = new Set(
      together.flatMap(({ firstBar, ends: own }) => [...(firstBar > 0 ? [firstBar - 1] : []), ...own]),
    );
    const [first] = together;
    if (first === undefined) continue;
    const { entries, barEnds } = entriesOf(parts, everywhere(ends, widths, first.width - head));
    const systems = engraver.engrave(abc, first.width, entries);
    const lines = linesOf(barEnds, score.bars.length);
    // Where the engraver breaks its lines otherwise, nothing could be trusted about what stands in them.
    if (systems.length !== lines.length) continue;
    const placed = systems.flatMap((system, index) => {
      const line = lines[index];
      return line === undefined ? [] : [placeSystem(score, system, line.firstBar, line.lastBar)];
    });
    for (const one of together)
      drawn.set(
        one,
        placed.filter(({ firstBar, lastBar }) => one.firstBar <= firstBar && lastBar <= one.lastBar),
      );
  }
  return wanted.map(one => drawn.get(one) ?? []);
}

function inLines(passage: Passage, widths: readonly number[], widest: number): Wanted {
  const own = widths.slice(passage.firstBar, passage.lastBar + 1);
  const natural = head + own.reduce((sum, width) => sum + width, 0);
  const width = Math.min(widest, Math.ceil(natural / widthStep) * widthStep);
  const ends = lineEnds(own, width - head).map(end => passage.firstBar + end);
  return { ...passage, width, ends };
}

/**
 * Ends of lines in the passages, and as many between them as it takes that no line is too wide: the engraver sets every line as wide as the
 * widest one.
 */
function everywhere(ends: ReadonlySet<number>, widths: readonly number[], room: number): ReadonlySet<number> {
  let from = 0;
  return new Set(
    [...ends, widths.length - 1]
      .sort((a, b) => a - b)
      .flatMap(end => {
        const begin = from;
        from = end + 1;
        return lineEnds(widths.slice(begin, from), room).map(at => begin + at);
      }),
  );
}

/** Passages sorted into as few engravings as come without one cutting another, each for lines of one width. */
function compatible(wanted: readonly Wanted[]): readonly (readonly Wanted[])[] {
  const groups: Wanted[][] = [];
  for (const one of wanted) {
    const fits = groups.find(group => group.every(other => other.width === one.width && !cuts(other, one)));
    if (fits === undefined) groups.push([one]);
    else fits.push(one);
  }
  return groups;
}

const cuts = (a: Passage, b: Passage): boolean =>
  a.firstBar <= b.lastBar &&
  b.firstBar <= a.lastBar &&
  !(a.firstBar === b.firstBar && a.lastBar === b.lastBar);

/** Ends of lines as bars become ends as entries of the engraver, part by part; a line does not end within an entry. */
function entriesOf(
  parts: Measured['parts'],
  ends: ReadonlySet<number>,
): { readonly entries: readonly (readonly number[])[]; readonly barEnds: readonly number[] } {
  let bar = -1;
  const barEnds: number[] = [];
  const entries = parts.map((part, index) =>
    part.flatMap(({ bars }, entry) => {
      const first = bar + 1;
      bar += bars;
      const isLast = entry === part.length - 1;
      const wanted = Array.from({ length: bars }, (_, at) => first + at).some(one => ends.has(one));
      if (!wanted && !(isLast && index < parts.length - 1)) return [];
      barEnds.push(bar);
      return isLast ? [] : [entry];
    }),
  );
  return { entries, barEnds };
}

function linesOf(ends: readonly number[], bars: number): readonly Passage[] {
  const lasts = ends.filter(end => end < bars - 1);
  return [...lasts, bars - 1].map((lastBar, index) => ({
    firstBar: index === 0 ? 0 : (lasts[index - 1] ?? 0) + 1,
    lastBar,
  }));
}
