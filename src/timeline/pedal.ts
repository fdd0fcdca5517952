import { add, compare, greatest, isBefore, subtract, zero } from '../score/index.js';
import type { Fraction, PlayedBar, Score } from '../score/index.js';
import type { ChordsIn } from './demonstration.js';

/**
 * When the pedal is changed, in whole notes of playing time, in order: with each harmony and at each bar line, last at the end of the
 * passage. Common practice of playing broken chords.
 */
export function pedalChanges(
  score: Score,
  order: readonly PlayedBar[],
  chordsIn: ChordsIn,
): readonly Fraction[] {
  const changes: Fraction[] = [];
  let barStart = zero;
  for (const { bar: index } of order) {
    const bar = score.bars[index];
    if (bar === undefined) continue;
    const starts = chordsIn(score, bar.start, add(bar.start, bar.length)).map(({ start }) =>
      greatest(start, bar.start),
    );
    for (const start of [bar.start, ...starts].sort(compare)) {
      const played = add(barStart, subtract(start, bar.start));
      const last = changes.at(-1);
      if (last === undefined || isBefore(last, played)) changes.push(played);
    }
    barStart = add(barStart, bar.length);
  }
  return [...changes, barStart];
}

/** Until when a key sounds that is let go at `end`: the pedal keeps it up to its next change. */
export const heldByPedal = (end: Fraction, changes: readonly Fraction[]): Fraction =>
  changes.find(change => !isBefore(change, end)) ?? end;
