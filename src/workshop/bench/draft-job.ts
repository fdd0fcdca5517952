import { basename } from 'node:path';
import type { Answer } from '../../bridge/index.js';
import { draftLesson } from '../../lesson/index.js';
import { granted, refused } from '../answer.js';
import { loadScore } from '../reading/load-score.js';
import type { JobResults, Jobs } from './jobs.js';

/** A first lesson over a score. */
export async function draftJob({ score }: Jobs['draft']): Promise<Answer<JobResults['draft']>> {
  const { analysis, diagnostics } = await loadScore(score);
  if (analysis === undefined)
    return refused(
      `no lesson can be drafted from \`${basename(score)}\``,
      diagnostics.find(({ severity }) => severity === 'error')?.message ?? 'there are no notes in it',
    );
  return granted({ text: draftLesson(analysis, basename(score)) });
}
