import { printPitch } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import type { ClaimContext, Evidence, EvidenceRole } from '../model.js';
import type { Line } from '../subjects/line.js';
import { sayStep } from '../subjects/line-steps.js';
import type { Step } from '../subjects/line-steps.js';

/** What is found out about a line before it is said what would be true instead. */
export type Moved = Omit<Finding<Line>, 'instead'>;

/** The notes of some moves, each once. */
export function moveEvidence(
  steps: readonly Step[],
  role: EvidenceRole,
  context: ClaimContext,
): readonly Evidence[] {
  const seen = new Set<number>();
  return steps
    .flatMap(({ from, to, ...step }) => [
      { note: from, why: 'a note of the line' },
      { note: to, why: sayStep({ from, to, ...step }) },
    ])
    .filter(({ note }) => !seen.has(note.id) && seen.add(note.id))
    .slice(0, 16)
    .map(({ note, why }) => noteEvidence(role, note, why, context));
}

/** `B4 C#5 D5`: the first notes of a line. */
export const sayLine = (line: Line): string =>
  line.notes
    .slice(0, 16)
    .map(({ note }) => printPitch(note.pitch))
    .join(' ');

/** That a line has the moves that are asked for, which `shown` are. */
export const foundIn = (
  line: Line,
  moves: readonly Step[],
  context: ClaimContext,
  shown: readonly Step[] = moves,
): Moved => ({
  verdict: 'holds',
  code: 'C1101',
  reason: `${line.name} has ${shown.map(sayStep).join(', then ')}`,
  evidence: moveEvidence(moves, 'supports', context),
});

/** Whether every move of a line is as it is said to be. */
export function checkEvery(
  line: Line,
  steps: readonly Step[],
  fit: (step: Step) => boolean,
  context: ClaimContext,
): Moved {
  const wrong = steps.find(step => !fit(step));
  return wrong === undefined
    ? {
        verdict: 'holds',
        code: 'C1101',
        reason: `${line.name} goes ${sayLine(line)}`,
        evidence: moveEvidence(steps, 'supports', context),
      }
    : {
        verdict: 'fails',
        code: 'C1102',
        reason: `${line.name} has ${sayStep(wrong)}`,
        evidence: moveEvidence([wrong], 'contradicts', context),
      };
}
