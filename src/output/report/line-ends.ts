/** Bars may give way this much before they collide. */
const tightest = 0.86;

/**
 * Breaks the bars of a passage into as few lines as they fit, all about equally full. Returns the indexes after which a line ends, the
 * last bar's own among them. A single bar that is too wide has a line of its own.
 * @param widths of the bars at their ease
 * @param room of a line without its head
 */
export function lineEnds(widths: readonly number[], room: number): readonly number[] {
  const most = room / tightest;
  const best: { readonly lines: number; readonly cost: number; readonly from: number }[] = [
    { lines: 0, cost: 0, from: 0 },
  ];
  for (let end = 1; end <= widths.length; end++) {
    let found = { lines: Infinity, cost: Infinity, from: end - 1 };
    let filled = 0;
    for (let from = end - 1; from >= 0; from--) {
      filled += widths[from] ?? 0;
      if (filled > most && from < end - 1) break;
      const before = best[from];
      if (before === undefined) continue;
      const lines = before.lines + 1;
      const cost = before.cost + filled * filled;
      if (lines < found.lines || (lines === found.lines && cost < found.cost)) found = { lines, cost, from };
    }
    best.push(found);
  }
  const ends: number[] = [];
  for (let end = widths.length; end > 0; end = best[end]?.from ?? 0) ends.unshift(end - 1);
  return ends;
}
