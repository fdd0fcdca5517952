import type { Lesson } from '../lesson/index.js';
import { compare, divide, fraction, fromDecimal, isCompound, multiply } from '../score/index.js';
import type { Fraction, Meter, Score } from '../score/index.js';

/** Beats a minute where neither lesson nor score names a tempo: a walking pace (Andante). Common practice, no standard. */
export const defaultBeatsPerMinute = 84;

/** Note value of one beat: three units in compound metres (6/8, 9/8, 12/16), the lower number of the time signature elsewhere. */
export const beatOf = (meter: Meter): Fraction => fraction(isCompound(meter) ? 3 : 1, meter.unit);

/** How fast written music runs at a moment: whole notes a second, exact. */
export interface Speed {
  readonly onset: Fraction;
  readonly wholesPerSecond: Fraction;
}

const speedOf = (beatsPerMinute: number, beat: Fraction): Fraction =>
  divide(multiply(fromDecimal(beatsPerMinute), beat), fraction(60));

/**
 * Speeds of a score as the lesson plays it, by written onset, the first one at the start. The lesson's tempo replaces the first
 * mark of the score; later marks keep their relation to it.
 */
export function speedsOf(score: Score, lesson: Pick<Lesson, 'tempo' | 'beat'>): readonly Speed[] {
  const start = fraction(0);
  const meter = score.bars[0]?.meter;
  const beat = lesson.beat ?? (meter === undefined ? fraction(1, 4) : beatOf(meter));
  const marks = [...score.tempos]
    .filter(mark => mark.beatsPerMinute > 0)
    .sort((a, b) => compare(a.onset, b.onset))
    .map(mark => ({ onset: mark.onset, wholesPerSecond: speedOf(mark.beatsPerMinute, mark.beat) }));
  const firstMark = marks[0]?.onset.n === 0 ? marks[0] : undefined;
  const first =
    lesson.tempo === undefined
      ? (firstMark?.wholesPerSecond ?? speedOf(defaultBeatsPerMinute, beat))
      : speedOf(lesson.tempo, beat);
  const scale = firstMark === undefined ? fraction(1) : divide(first, firstMark.wholesPerSecond);
  const later = marks
    .filter(mark => mark.onset.n > 0)
    .map(mark => ({ onset: mark.onset, wholesPerSecond: multiply(mark.wholesPerSecond, scale) }));
  return [{ onset: start, wholesPerSecond: first }, ...later];
}
