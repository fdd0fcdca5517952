import { add, compare, isBefore, subtract, toNumber, zero } from '../score/index.js';
import type { Fraction, PlayedBar, Score } from '../score/index.js';
import type { Speed } from './tempo.js';

/** A fermata makes its note about three quarters longer. Common practice: between half as long again and twice as long. */
export const fermataStretch = 1.75;

/** Turns whole notes from the start of a passage as it is played into seconds from its first note. */
export type PassageClock = (played: Fraction) => number;

interface Stretch {
  readonly from: Fraction;
  readonly secondsAtFrom: number;
  readonly secondsPerWhole: number;
}

/** Written spans that a fermata holds: the shortest note that carries one at that moment. */
export function heldSpans(score: Score): readonly { readonly start: Fraction; readonly end: Fraction }[] {
  return score.marks
    .filter(mark => mark.kind === 'fermata')
    .flatMap(mark => {
      const here = [...score.notes, ...score.rests]
        .filter(
          note => compare(note.onset, mark.onset) === 0 && note.voice === mark.voice && note.duration.n > 0,
        )
        .sort((a, b) => compare(a.duration, b.duration))[0];
      return here === undefined ? [] : [{ start: mark.onset, end: add(mark.onset, here.duration) }];
    });
}

/**
 * The clock of a passage: the bars in playing order, the speeds in force in each of them (a repeat goes back to the speed written
 * there), fermatas held. `percent` is the tempo of the playing, 100 as the lesson has it.
 */
export function passageClock(
  score: Score,
  order: readonly PlayedBar[],
  speeds: readonly Speed[],
  percent: number,
): PassageClock {
  const held = heldSpans(score);
  const stretches: Stretch[] = [];
  let playedBarStart = zero;
  for (const { bar: index } of order) {
    const bar = score.bars[index];
    if (bar === undefined) continue;
    const barEnd = add(bar.start, bar.length);
    const inside = (at: Fraction) => compare(at, bar.start) >= 0 && isBefore(at, barEnd);
    const changes = [
      bar.start,
      ...speeds.map(speed => speed.onset),
      ...held.flatMap(span => [span.start, span.end]),
    ]
      .filter(inside)
      .sort(compare);
    for (const at of changes) {
      const from = add(playedBarStart, subtract(at, bar.start));
      const speed = speeds.findLast(({ onset }) => compare(onset, at) <= 0)?.wholesPerSecond ?? {
        n: 1,
        d: 2,
      };
      const isHeld = held.some(span => compare(span.start, at) <= 0 && isBefore(at, span.end));
      const secondsPerWhole = ((speed.d / speed.n) * 100 * (isHeld ? fermataStretch : 1)) / percent;
      const before = stretches.at(-1);
      const secondsAtFrom = before === undefined ? 0 : secondsIn(before, from);
      stretches.push({ from, secondsAtFrom, secondsPerWhole });
    }
    playedBarStart = add(playedBarStart, bar.length);
  }
  return played => {
    let low = 0;
    let high = stretches.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      const stretch = stretches[middle];
      if (stretch !== undefined && compare(stretch.from, played) <= 0) low = middle;
      else high = middle - 1;
    }
    const stretch = stretches[low];
    return stretch === undefined ? 0 : secondsIn(stretch, played);
  };
}

const secondsIn = (stretch: Stretch, played: Fraction): number =>
  stretch.secondsAtFrom + toNumber(subtract(played, stretch.from)) * stretch.secondsPerWhole;
