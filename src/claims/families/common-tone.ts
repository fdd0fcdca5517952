import { embellishes } from '../../harmony/index.js';
import type { Judgement, RomanNumeral } from '../../harmony/index.js';
import { printPitchClass } from '../../score/index.js';
import type { ClaimContext, Range } from '../model.js';
import { segmentsIn } from '../segments.js';

type Dispute = Pick<Judgement, 'outcome' | 'reason'>;

/**
 * What speaks against a numeral whose notes are there: the same diminished seventh chord embellishes the chord that holds its seventh as root, or
 * leads into another as its leading-tone chord, and only what stands beside it tells (claim C3 of the trade).
 */
export function commonToneDispute(
  numeral: RomanNumeral,
  range: Range,
  context: ClaimContext,
): Dispute | undefined {
  const { segments } = context.analysis;
  const own = segmentsIn(context.analysis, range);
  const [first] = own;
  const last = own.at(-1);
  if (first === undefined || last === undefined) return undefined;
  const before = segments[segments.indexOf(first) - 1]?.chord;
  const after = segments[segments.indexOf(last) + 1]?.chord;
  if (numeral.kind === 'common-tone') {
    if (after === undefined || embellishes(last.chord, after) || embellishes(last.chord, before))
      return undefined;
    const kept = last.chord.tones[3];
    const name = kept === undefined ? 'its seventh' : printPitchClass(kept);
    return {
      outcome: 'contradicted',
      reason: `${name} does not stay as the root of the chord before or after, so that it embellishes neither`,
    };
  }
  const isLeadingTone = numeral.kind === 'degree' && numeral.quality === 'o' && numeral.target !== undefined;
  if (!isLeadingTone || !embellishes(last.chord, after)) return undefined;
  return {
    outcome: 'rivalled',
    reason: `spelled so, but its target does not follow: ${after === undefined ? '' : printPitchClass(after.root)} stays as the root of the next chord, which makes it a common-tone diminished seventh`,
  };
}
