import { bassOf, judgeChord, printChord } from '../../harmony/index.js';
import type { Chord, Judgement } from '../../harmony/index.js';
import { compare } from '../../score/index.js';
import type { ClaimContext, Range } from '../model.js';
import { endOf } from '../place/beats.js';

/** The full bars inside a stretch, where it holds two or more. */
function barsOf(range: Range, context: ClaimContext): readonly (Range & { readonly label: string })[] {
  const inside = context.analysis.score.bars.filter(
    bar => compare(range.start, bar.start) <= 0 && compare(endOf(bar), range.end) <= 0,
  );
  return inside.length < 2
    ? []
    : inside.map(bar => ({ label: bar.label, start: bar.start, end: endOf(bar) }));
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
  const bars = barsOf(range, context).map(({ label, start, end }) => ({
    label,
    judgement: judgeChord(context.analysis, { start, end, ...asked }),
  }));
  const other = bars.find(({ judgement }) => judgement.outcome === 'contradicted');
  if (other !== undefined)
    return {
      ...other.judgement,
      reason: `not every bar is ${printChord({ ...of, inversion: 0 })}; bar ${other.label}: ${other.judgement.reason}`,
    };
  // Where another reading fits as well, it is one of the bars that has it.
  const doubtful = bars.find(({ judgement }) => judgement.outcome === whole.outcome);
  if (whole.outcome === 'rivalled' && doubtful !== undefined)
    return { ...whole, reason: `bar ${doubtful.label}: ${doubtful.judgement.reason}` };
  return whole;
}
