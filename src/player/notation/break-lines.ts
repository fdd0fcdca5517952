/** One bar as it asks for room; widths share one unit. */
export interface BarWidth {
  readonly width: number;
  /** A line should rather end after this bar: a step of the lesson starts behind it. */
  readonly goodEnd: boolean;
  /** False where a line must not end: nothing stands in front of this bar line. */
  readonly mayEnd: boolean;
}

/** Room for clefs and signatures at the head of a line. */
export interface LineRoom {
  readonly line: number;
  readonly firstHead: number;
  readonly head: number;
}

/** A line that ends where the author ends a thought may be this much looser or tighter (squared share of the line). */
const goodEndBonus = 0.2;
/** Bars may give way this much before they collide. */
const tightest = 0.82;

function lineCost(natural: number, room: number, isLast: boolean, isSingle: boolean): number {
  const slack = (room - natural) / room;
  if (natural * tightest > room && !isSingle) return Infinity;
  if (slack < 0) return 4 * slack * slack;
  return isLast ? 0.5 * slack * slack : slack * slack;
}

/**
 * Breaks a piece into lines that are as evenly filled as possible, looking at all lines together (the least sum of squared slack, as
 * in Knuth and Plass, "Breaking Paragraphs into Lines", 1981). Returns the indexes of the bars after which a line ends,
 * the last one left out.
 */
export function breakLines(bars: readonly BarWidth[], room: LineRoom): readonly number[] {
  const best: { cost: number; from: number }[] = [{ cost: 0, from: 0 }];
  for (let end = 1; end <= bars.length; end++) {
    let found = { cost: Infinity, from: end - 1 };
    let natural = 0;
    const bar = bars[end - 1];
    const isLast = end === bars.length;
    if (bar !== undefined && (bar.mayEnd || isLast)) {
      for (let start = end - 1; start >= 0; start--) {
        natural += bars[start]?.width ?? 0;
        const head = start === 0 ? room.firstHead : room.head;
        const line = lineCost(natural + head, room.line, isLast, start === end - 1);
        if (line === Infinity) break;
        const cost = (best[start]?.cost ?? Infinity) + line - (bar.goodEnd && !isLast ? goodEndBonus : 0);
        if (cost < found.cost) found = { cost, from: start };
      }
    }
    best.push(found);
  }
  const ends: number[] = [];
  for (let end = best[bars.length]?.from ?? 0; end > 0; end = best[end]?.from ?? 0) ends.unshift(end - 1);
  return ends;
}
