import { endsStrongly, type BarFrame } from './bars.js';
import type { PlayedBar } from './model.js';

/** More bars than this are not unfolded: a slip in a repeat must not fill the memory. */
export const mostPlayedBars = 100_000;

/** A direction such as `segno` or `D.C. al fine`. */
export interface Direction {
  readonly text: string;
  /** The bar it stands in. */
  readonly bar: number;
  /** Whether it stands at the first note of the bar; elsewhere it counts from the end of the bar. */
  readonly atStart: boolean;
}

const entryOf = ({ bar, atStart }: Direction): number => (atStart ? bar : bar + 1);

/** Whether the endings around a bar hold one for the given pass. */
function hasEndingFor(frames: readonly BarFrame[], at: number, pass: number): boolean {
  let first = at;
  while (frames[first - 1]?.ending !== undefined) first -= 1;
  for (let index = first; frames[index]?.ending !== undefined; index++) {
    if (frames[index]?.ending?.includes(pass) === true) return true;
  }
  return false;
}

/**
 * The bars in [from, until) with repeats and endings unfolded (ABC 2.1, sections 4.8 to 4.10). An end of repeat without a
 * start goes back to the last double bar or end of repeat, as section 4.8 recommends.
 */
function unfoldRepeats(frames: readonly BarFrame[], from: number, until: number): readonly number[] {
  const order: number[] = [];
  let start = from;
  let isOpened = false;
  let pass = 1;
  const beginAt = (bar: number, opened: boolean): void => {
    start = bar;
    isOpened = opened;
    pass = 1;
  };
  for (let at = from; at < until && order.length < mostPlayedBars;) {
    const frame = frames[at];
    if (frame === undefined) break;
    if (frame.opening.some(line => line.startsRepeat) && !(at === start && pass > 1)) beginAt(at, true);
    const isPlayed = frame.ending === undefined || frame.ending.includes(pass);
    if (isPlayed) order.push(at);
    const times = Math.max(1, ...frame.closing.map(line => line.times));
    const goesBack =
      times > 1 && (frame.ending === undefined ? pass < times : hasEndingFor(frames, at, pass + 1));
    if (isPlayed && goesBack) {
      pass += 1;
      at = start;
      continue;
    }
    at += 1;
    const leavesEndings = frame.ending !== undefined && frames[at]?.ending === undefined;
    const closesSection = frame.ending === undefined && (times > 1 || (!isOpened && endsStrongly(frame)));
    if (leavesEndings || closesSection) beginAt(at, false);
  }
  return order;
}

/** The bars in [from, until) without repeats, last endings taken: how a `D.C.` or `D.S.` is played (common practice). */
function walkOnce(frames: readonly BarFrame[], from: number, until: number): readonly number[] {
  const order: number[] = [];
  for (let at = from; at < Math.min(until, frames.length); at++) {
    const ending = frames[at]?.ending;
    let next = at + 1;
    while (ending !== undefined && frames[next]?.ending === ending) next += 1;
    // A further ending behind this one is the one to take.
    if (ending === undefined || frames[next]?.ending === undefined) order.push(at);
  }
  return order;
}

/** The bars in the order in which they are played: repeats, endings, `D.C.` and `D.S.` unfolded. */
function unfold(frames: readonly BarFrame[], directions: readonly Direction[]): readonly number[] {
  const jump = directions.find(({ text }) => text.startsWith('D.'));
  if (jump === undefined) return unfoldRepeats(frames, 0, frames.length);
  const named = (text: string): readonly Direction[] =>
    directions.filter(direction => direction.text === text);
  const [segno] = named('segno');
  const [fine] = named('fine');
  const codas = named('coda');
  const toCoda = named('to coda')[0] ?? (codas.length > 1 ? codas[0] : undefined);
  const coda = codas.at(-1);
  const before = unfoldRepeats(frames, 0, entryOf({ ...jump, atStart: false }));
  const to = jump.text.startsWith('D.S.') && segno !== undefined ? entryOf(segno) : 0;
  if (fine !== undefined && !jump.text.endsWith('coda'))
    return [...before, ...walkOnce(frames, to, entryOf(fine))];
  if (coda !== undefined && toCoda !== undefined && !jump.text.endsWith('fine')) {
    return [
      ...before,
      ...walkOnce(frames, to, entryOf(toCoda)),
      ...unfoldRepeats(frames, entryOf(coda), frames.length),
    ];
  }
  return [...before, ...walkOnce(frames, to, frames.length)];
}

/** The playing order of the score; repeats and directions are followed here and nowhere else. */
export function playingOrderOf(
  frames: readonly BarFrame[],
  directions: readonly Direction[],
): readonly PlayedBar[] {
  const played = new Map<number, number>();
  return unfold(frames, directions).map(bar => {
    const pass = played.get(bar) ?? 0;
    played.set(bar, pass + 1);
    return { bar, pass };
  });
}
