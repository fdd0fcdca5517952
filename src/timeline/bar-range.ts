import type { BarRange } from '../lesson/index.js';
import type { Bar, PlayedBar, Score } from '../score/index.js';

function indexOfBar(bars: readonly Bar[], label: string, from: 'start' | 'end'): number | undefined {
  const exact = bars.filter(bar => bar.label === label);
  if (exact.length === 1) return exact[0]?.index;
  const named = (bar: Bar) => String(bar.number) === label;
  if (from === 'start') return known(bars.findIndex(named));
  // Where a repeat sign cuts a bar in two, its second part leads into the next phrase: the range ends before it.
  return known(bars.findLastIndex(bar => named(bar) && !isUpbeat(bar))) ?? known(bars.findLastIndex(named));
}

const known = (index: number): number | undefined => (index < 0 ? undefined : index);

/** A short bar of its own that leads into the next one: the pickup of the piece, or the upbeat after a repeat sign. */
const isUpbeat = (bar: Bar | undefined): boolean => bar !== undefined && bar.startsAt.n > 0;

/** Indices of the first and the last written bar of a range, the upbeat before it not yet counted; `undefined` where a label is not in the piece. */
export function writtenBars(
  score: Score,
  range: BarRange,
): { readonly first: number; readonly last: number } | undefined {
  const first = indexOfBar(score.bars, range.first, 'start');
  const last = indexOfBar(score.bars, range.last, 'end');
  return first === undefined || last === undefined || last < first ? undefined : { first, last };
}

/** The shortest stretch of the playing order that leads from one written bar to another without leaving them. */
function shortestStretch(
  order: readonly PlayedBar[],
  first: number,
  last: number,
): readonly PlayedBar[] | undefined {
  let best: readonly PlayedBar[] | undefined;
  let start: number | undefined;
  order.forEach((played, at) => {
    if (played.bar === first) start = at;
    if (played.bar !== last || start === undefined) return;
    const stretch = order.slice(start, at + 1);
    const inside = stretch.every(({ bar }) => bar >= first && bar <= last);
    if (inside && (best === undefined || stretch.length < best.length)) best = stretch;
  });
  return best;
}

/**
 * The bars of a range in the order in which they are heard.
 *
 * The whole piece is heard as written, with all its repeats. A passage is heard once through: along the shortest stretch of the
 * playing order that leads from its first bar to its last. So no repeat sign is taken, of two endings the one that leads on is
 * heard, also where the passage starts in it, and a passage that ends in `8a` is heard with that ending. A bar that stands in both
 * endings and is named alone is heard in both. An upbeat that stands as a bar of its own belongs to the bar that it leads into, so a
 * range that starts there starts with it.
 *
 * Returns `undefined` where a label is not in the piece or the range runs backwards.
 */
export function barsToPlay(score: Score, range: BarRange): readonly PlayedBar[] | undefined {
  const written = writtenBars(score, range);
  if (written === undefined) return undefined;
  const withUpbeat = (bar: number): number => (isUpbeat(score.bars[bar - 1]) ? bar - 1 : bar);
  const first = withUpbeat(written.first);
  const { last } = written;
  const order = score.playingOrder;
  if (first === 0 && last === score.bars.length - 1) return order;
  const sameName = score.bars.filter(
    bar => bar.index > written.first && bar.index < last && String(bar.number) === range.first,
  );
  const starts =
    range.first === range.last ? [first] : [first, ...sameName.map(bar => withUpbeat(bar.index))];
  for (const start of starts) {
    const stretch = shortestStretch(order, start, last);
    if (stretch !== undefined) return stretch;
  }
  return score.bars.slice(first, last + 1).map(bar => ({ bar: bar.index, pass: 0 }));
}
