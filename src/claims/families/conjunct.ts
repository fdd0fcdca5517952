import type { Finding, Predicate } from '../claim.js';
import { choice, map, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import type { Line } from '../subjects/line.js';
import { isStep } from '../subjects/line-steps.js';
import type { Step } from '../subjects/line-steps.js';
import { printVerb } from '../terms/verb.js';
import type { VerbForm } from '../terms/verb.js';
import { checkEvery, moveEvidence } from './line-movement.js';

/** A line that moves by step, all of it or more of its moves than not; or mostly by leap. */
export type ConjunctSays =
  { readonly kind: 'steps' } | { readonly kind: 'mostly'; readonly manner: 'step' | 'leap' };

const mostly = word('mostly', 'mainly', 'largely', 'predominantly');
const steps = (): ConjunctSays => ({ kind: 'steps' });
const mostlyBy = (manner: 'step' | 'leap') => (): ConjunctSays => ({ kind: 'mostly', manner });

/** After `moves`: `by step`. */
export const byStep: Parser<ConjunctSays> = map(
  word('by step', 'only by step', 'stepwise', 'in steps', 'in stepwise motion'),
  steps,
);
/** After `is`. */
export const conjunct: Parser<ConjunctSays> = map(word('conjunct', 'stepwise'), steps);
export const disjunct: Parser<ConjunctSays> = map(word('disjunct'), mostlyBy('leap'));
export const mostlyConjunct: Parser<ConjunctSays> = map(
  sequence(mostly, word('conjunct', 'stepwise')),
  mostlyBy('step'),
);
/** After `moves`: `mostly by step`. */
export const mostlyByStepOrLeap: Parser<ConjunctSays> = choice(
  map(sequence(mostly, word('by step', 'stepwise', 'in steps')), mostlyBy('step')),
  map(sequence(mostly, word('by leap', 'in leaps', 'by leaps')), mostlyBy('leap')),
);

export const describeConjunct = (says: ConjunctSays, form: VerbForm): string =>
  `${printVerb('moves', 'move', form)} ${says.kind === 'steps' ? 'by step' : `mostly by ${says.manner}`}`;

/** Whether a line moves by step, or mostly by step or leap. */
export function checkConjunct(
  line: Line,
  moves: readonly Step[],
  says: ConjunctSays,
  context: ClaimContext,
  make: (says: ConjunctSays | { readonly kind: 'leap' }) => Predicate<Line>,
): Finding<Line> {
  if (says.kind === 'steps')
    return { ...checkEvery(line, moves, isStep, context), instead: () => [make({ kind: 'leap' })] };
  const fitting = moves.filter(step => isStep(step) === (says.manner === 'step'));
  const holds = 2 * fitting.length > moves.length;
  return {
    verdict: holds ? 'holds' : 'fails',
    code: holds ? 'C1101' : 'C1102',
    reason: `${String(fitting.length)} of ${String(moves.length)} moves of ${line.name} are ${says.manner === 'step' ? 'steps' : 'leaps'}`,
    evidence: moveEvidence(
      holds ? fitting : moves.filter(step => !fitting.includes(step)),
      holds ? 'supports' : 'contradicts',
      context,
    ),
    instead: () => [make({ kind: 'mostly', manner: says.manner === 'step' ? 'leap' : 'step' })],
  };
}
