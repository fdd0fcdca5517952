import { judgeCadence } from '../../harmony/index.js';
import type { CadenceKind, Judgement, Key } from '../../harmony/index.js';
import type { ClaimContext, Range } from '../model.js';

const kinds: readonly CadenceKind[] = [
  'perfect authentic',
  'imperfect authentic',
  'half',
  'deceptive',
  'plagal',
];

/** A cadence that could well be claimed of a place where the analysis lists none, with what is said for it; the firmest kind first. */
export function cadenceHeardIn(
  range: Range,
  key: Key,
  { analysis }: ClaimContext,
): { readonly kind: CadenceKind; readonly judgement: Judgement } | undefined {
  for (const kind of kinds) {
    const judgement = judgeCadence(analysis, { ...range, kind, key });
    if (judgement.outcome === 'supported') return { kind, judgement };
  }
  return undefined;
}
