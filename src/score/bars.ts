import type { SourceText } from '../diagnostics/index.js';
import type { BarLine } from './bar-line.js';
import { add, compare, equals, greatest, isBefore, subtract, zero, type Fraction } from './fraction.js';
import { isFree } from './meter.js';
import type { Bar, KeySignature, Meter } from './model.js';
import { lengthOfBar, type VoiceBar } from './voice-bars.js';

/** What all voices together say about one bar. */
export interface BarFrame {
  readonly opening: readonly BarLine[];
  readonly closing: readonly BarLine[];
  readonly meter: Meter;
  readonly key: KeySignature;
  readonly length: Fraction;
  /** The passes on which an alternative ending is played. */
  readonly ending?: readonly number[];
  readonly start: number;
  readonly end: number;
}

/** Nominal length of a bar; in free metre whatever is written. */
const nominalLength = (frame: BarFrame): Fraction =>
  isFree(frame.meter) ? frame.length : frame.meter.length;

export const endsStrongly = (frame: BarFrame): boolean => frame.closing.some(line => line.strong);

/**
 * The length that the voices give a bar. Where they disagree, the length that most of them write, in a draw the one that
 * the metre asks for: one slip must not move the rest of the piece.
 */
function agreedLength(bars: readonly VoiceBar[], meter: Meter): Fraction {
  const lengths = bars.map(lengthOfBar);
  const votes = (length: Fraction): number => lengths.filter(other => equals(other, length)).length;
  const most = Math.max(0, ...lengths.map(votes));
  const candidates = lengths.filter(length => votes(length) === most);
  return candidates.find(length => equals(length, meter.length)) ?? candidates.reduce(greatest, zero);
}

/** Joins what the voices write into one frame for each bar. Key and metre are those of the voice with the most bars. */
export function frameBars(voices: readonly (readonly VoiceBar[])[]): readonly BarFrame[] {
  const longest = voices.reduce<readonly VoiceBar[]>(
    (best, bars) => (bars.length > best.length ? bars : best),
    [],
  );
  let ending: readonly number[] | undefined;
  return longest.map((bar, index) => {
    const together = voices.flatMap(bars => bars[index] ?? []);
    const opening = together.flatMap(other => other.opening);
    const closing = together.flatMap(other => other.closing);
    ending = opening.find(line => line.ending !== undefined)?.ending ?? ending;
    const here = ending === undefined ? {} : { ending };
    if (closing.some(line => line.strong)) ending = undefined;
    const { meter, key, start, end } = bar;
    return { opening, closing, meter, key, length: agreedLength(together, meter), start, end, ...here };
  });
}

type Numbered = Pick<Bar, 'number' | 'startsAt'>;

/**
 * Numbers the bars: the first full bar is 1, a pickup is 0, a bar that a repeat sign or a double bar cuts in two counts
 * once, and every further ending starts again with the number of the first (common practice of engravers).
 */
function numberBars(frames: readonly BarFrame[]): readonly Numbered[] {
  const numbered: Numbered[] = [];
  let next = 1;
  let firstEnding = 1;
  /** Length of the first part of a bar that is cut in two. */
  let carried = zero;
  for (const [index, frame] of frames.entries()) {
    const { ending, length } = frame;
    const nominal = nominalLength(frame);
    const isShort = isBefore(length, nominal);
    const isPickup = index === 0 && frames.length > 1 && isShort;
    const startsEnding = ending !== undefined && ending !== frames[index - 1]?.ending;
    if (startsEnding && ending.includes(1)) firstEnding = next;
    else if (startsEnding) next = firstEnding;
    const isSecondPart = carried.n > 0 && !startsEnding && equals(add(carried, length), nominal);
    if (isPickup) numbered.push({ number: 0, startsAt: subtract(nominal, length) });
    else if (isSecondPart) numbered.push({ number: next - 1, startsAt: carried });
    else numbered.push({ number: next++, startsAt: zero });
    carried = !isPickup && !isSecondPart && isShort && endsStrongly(frame) ? length : zero;
  }
  return numbered;
}

const letterOf = (place: number): string =>
  place < 26 ? String.fromCharCode(97 + place) : `.${String(place + 1)}`;

/** The number, with a letter where alternative endings share it. */
function labelBars(frames: readonly BarFrame[], numbered: readonly Numbered[]): readonly string[] {
  const sharing = new Map<number, (readonly number[] | undefined)[]>();
  for (const [index, { number }] of numbered.entries()) {
    const endings = sharing.get(number) ?? [];
    const ending = frames[index]?.ending;
    if (!endings.includes(ending)) endings.push(ending);
    sharing.set(number, endings);
  }
  return numbered.map(({ number }, index) => {
    const endings = sharing.get(number) ?? [];
    const ending = frames[index]?.ending;
    return ending === undefined || endings.length < 2
      ? String(number)
      : `${String(number)}${letterOf(endings.indexOf(ending))}`;
  });
}

/** The bars of the score, one after the other from 0. */
export function placeBars(source: SourceText, frames: readonly BarFrame[]): readonly Bar[] {
  const numbered = numberBars(frames);
  const labels = labelBars(frames, numbered);
  let end = zero;
  return frames.map((frame, index) => {
    const start = end;
    end = add(end, frame.length);
    const { length, meter, key, ending } = frame;
    const { number, startsAt } = numbered[index] ?? { number: index, startsAt: zero };
    const span = { source, start: frame.start, end: frame.end };
    const label = labels[index] ?? String(number);
    return {
      index,
      number,
      label,
      start,
      length,
      meter,
      key,
      startsAt,
      ...(ending === undefined ? {} : { ending }),
      span,
    };
  });
}

/** Whether a bar is shorter or longer than its metre asks; 0 where it fits or the metre is free. */
export const misfitOf = (frame: BarFrame): number => compare(frame.length, nominalLength(frame));
