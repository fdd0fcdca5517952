import { realpath } from 'node:fs/promises';
import { dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import type { Diagnostic } from '../../diagnostics/index.js';
import type { Located } from '../../lesson/index.js';
import { loadScore } from './load-score.js';
import type { LoadedScore } from './load-score.js';

export interface ScoreLibrary {
  /** Reads and analyses the score that a lesson names, beside the lesson. */
  readonly loadBeside: (lesson: string, score: Located<string>) => Promise<LoadedScore>;
}

/**
 * Reads scores and analyses each of them once, however many lessons name it.
 * @param allowOutside whether a lesson may name a score outside its own folder
 */
export function scoreLibrary(allowOutside: boolean): ScoreLibrary {
  const shelf = new Map<string, Promise<LoadedScore>>();
  const take = (path: string): Promise<LoadedScore> => {
    const key = resolve(path);
    const known = shelf.get(key) ?? loadScore(path);
    shelf.set(key, known);
    return known;
  };
  return {
    loadBeside: async (lesson, score) => {
      const folder = dirname(lesson);
      const path = isAbsolute(score.value) ? score.value : join(folder, score.value);
      if (!allowOutside && !(await isInside(folder, path)))
        return { analysis: undefined, diagnostics: [outside(score)] };
      const loaded = await take(path);
      // A file that cannot be read has no text to point at; what names it has.
      const located = loaded.diagnostics.map(finding =>
        finding.span === undefined ? { ...finding, span: score.span } : finding,
      );
      return { ...loaded, diagnostics: located };
    },
  };
}

/** Whether a path stays in a folder, links followed; a file that does not exist is judged by its name. */
async function isInside(folder: string, path: string): Promise<boolean> {
  const from = await realpath(folder).catch(() => resolve(folder));
  const to = await realpath(path).catch(() => resolve(from, relative(resolve(folder), resolve(path))));
  const way = relative(from, to);
  return way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}

function outside(score: Located<string>): Diagnostic {
  return {
    code: 'R0005',
    severity: 'error',
    message: `\`${score.value}\` lies outside the lesson's folder`,
    span: score.span,
    notes: ['a lesson from somebody else should not be able to open files elsewhere'],
    help: 'put the score beside the lesson, or pass `--allow-outside`',
  };
}
