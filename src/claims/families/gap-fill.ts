import { compare } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { map, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import type { Line } from '../subjects/line.js';
import { isStep, sayStep, stepBetween } from '../subjects/line-steps.js';
import type { Step } from '../subjects/line-steps.js';
import { soundEnd } from '../subjects/sounding.js';
import { moveEvidence } from './line-movement.js';

/** A leap that is followed by a step the other way. */
export interface GapFillSays {
  readonly kind: 'gap fill';
}

/** After `fills`. */
export const itsLeap: Parser<GapFillSays> = map(
  word('its leap', 'the leap', 'its leaps', 'in its leap', 'in the leap'),
  () => ({ kind: 'gap fill' }),
);

/** The move with which a voice goes on after a line. */
function stepAfter({ to }: Step, { analysis }: ClaimContext): Step | undefined {
  const end = soundEnd(to, analysis.score);
  const next = analysis.score.notes.find(
    ({ voice, onset, grace }) => voice === to.voice && !grace && compare(end, onset) <= 0,
  );
  return next === undefined ? undefined : stepBetween(to, next);
}

/** A leap of a fourth or more is followed by a step the other way; leaps through a chord (two in one direction) are left out. */
export function checkGapFill(line: Line, steps: readonly Step[], context: ClaimContext): Finding<Line> {
  const leaps = steps.filter((step, at) => {
    const next = steps[at + 1];
    const before = steps[at - 1];
    const inChord = [before, next].some(each => each !== undefined && !isStep(each) && each.up === step.up);
    return step.size.steps >= 3 && !inChord;
  });
  const stepsBack = (step: Step, next: Step | undefined): boolean =>
    next !== undefined && next.up !== step.up && isStep(next);
  const unfilled = leaps.find(step => !stepsBack(step, steps[steps.indexOf(step) + 1]));
  const [first] = leaps;
  if (first === undefined)
    return {
      verdict: 'fails',
      code: 'C1104',
      reason: `${line.name} has no leap of a fourth or more`,
      evidence: [],
    };
  const later =
    unfilled === steps.at(-1) && unfilled !== undefined ? stepAfter(unfilled, context) : undefined;
  if (unfilled !== undefined && stepsBack(unfilled, later))
    return {
      verdict: 'arguable',
      code: 'C1107',
      reason: `${sayStep(unfilled)}; the step back comes after ${line.span.name}`,
      evidence: moveEvidence([unfilled], 'set aside', context),
    };
  return unfilled === undefined
    ? {
        verdict: 'holds',
        code: 'C1101',
        reason: `${sayStep(first)}, then a step back`,
        evidence: moveEvidence(leaps, 'supports', context),
      }
    : {
        verdict: 'fails',
        code: 'C1102',
        reason: `${sayStep(unfilled)}, and no step back`,
        evidence: moveEvidence([unfilled], 'contradicts', context),
      };
}
