import { bassOf, judgeChord, printChord } from '../../harmony/index.js';
import type { Chord, Judgement } from '../../harmony/index.js';
import { compare } from '../../score/index.js';
import type { ClaimContext, Range } from '../model.js';
import { endOf } from '../place/beats.js';

/** The full bars inside a stretch, where it holds two or more. */
function barsOf(range: Range, context: ClaimContext): readonly Range[] {
  const inside = context.analysis.score.bars.filter(
    bar => compare(range.start, bar.start) <= 0 && compare(endOf(bar), range.end) <= 0,
  );
  return inside.length < 2 ? [] : inside.map(bar => ({ start: bar.start, end: endOf(bar) }));
}

/**
 * Judges a chord over a place. A sentence about several bars speaks of each of them: where one full bar contradicts the chord, whatever
 * its bass, the sentence joins two chords, however well the other bars fit.
 */
export function judgeWhole(
  of: Chord,
  question: { readonly range: Range; readonly withBass: boolean } & Partial<
    Pick<Parameters<typeof judgeChord>[1], 'key' | 'roman'>
  >,
  context: ClaimContext,
): Judgement {
  const { range, withBass, key, roman } = question;
  const asked = {
    tones: of.tones,
    ...(key === undefined ? {} : { key }),
    ...(roman === undefined ? {} : { roman }),
  };
  const whole = judgeChord(context.analysis, {
    ...range,
    ...asked,
    ...(withBass ? { bass: bassOf(of) } : {}),
  });
  if (whole.outcome === 'contradicted') return whole;
  for (const bar of barsOf(range, context)) {
    const judgement = judgeChord(context.analysis, { ...bar, ...asked });
    if (judgement.outcome === 'contradicted')
      return {
        ...judgement,
        reason: `not every bar is ${printChord({ ...of, inversion: 0 })}: ${judgement.reason}`,
      };
  }
  return whole;
}
