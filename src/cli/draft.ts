import { basename } from 'node:path';
import { draftLesson } from '../lesson/index.js';
import type { Run } from './commands.js';
import { complain } from './report.js';
import { loadScore } from '../workshop/index.js';

/** `barwise draft SCORE`: the lesson goes to standard output, findings about the score to standard error. */
export const runDraft: Run = async ({ operands: [file = ''] }, terminal) => {
  const { analysis, diagnostics } = await loadScore(file);
  for (const diagnostic of diagnostics) complain(terminal, diagnostic);
  if (analysis === undefined) return diagnostics.some(({ code }) => code.startsWith('R')) ? 2 : 1;
  terminal.write(draftLesson(analysis, basename(file)));
  return 0;
};
