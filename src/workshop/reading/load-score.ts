import type { Diagnostic } from '../../diagnostics/index.js';
import { analyse } from '../../harmony/index.js';
import type { Analysis } from '../../harmony/index.js';
import { readScore } from '../../score/index.js';
import { readSource } from './read-source.js';

/** A score that was read, with its findings; without an analysis where there is nothing to analyse. */
export interface LoadedScore {
  readonly analysis: Analysis | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

/** Reads and analyses a score file; every fault is among the findings. */
export async function loadScore(path: string): Promise<LoadedScore> {
  const { value, diagnostics } = await readSource(path);
  if (value === undefined) return { analysis: undefined, diagnostics };
  const score = readScore(value);
  return {
    analysis: score.value.notes.length === 0 ? undefined : analyse(score.value),
    diagnostics: score.diagnostics,
  };
}
