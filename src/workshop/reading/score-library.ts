import { realpath } from 'node:fs/promises';
import { dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import type { Diagnostic } from '../../diagnostics/index.js';
import { analyse } from '../../harmony/index.js';
import type { Analysis } from '../../harmony/index.js';
import type { Located } from '../../lesson/index.js';
import { readScore } from '../../score/index.js';
import { readSource } from './read-source.js';

/** A score that was read, with its findings; without an analysis where there is nothing to analyse. */
export interface LoadedScore {
  readonly analysis: Analysis | undefined;
  readonly diagnostics: readonly Diagnostic[];
}

export interface ScoreLibrary {
  /** Reads and analyses a score file. */
  readonly load: (path: string) => Promise<LoadedScore>;
  /** Reads and analyses the score that a lesson names, beside the lesson. */
  readonly loadBeside: (lesson: string, score: Located<string>) => Promise<LoadedScore>;
}

/**
 * Reads scores and analyses each of them once, however many lessons name it.
 * @param allowOutside whether a lesson may name a score outside its own folder
 */
export function scoreLibrary(allowOutside: boolean): ScoreLibrary {
  const shelf = new Map<string, Promise<LoadedScore>>();
  const take = (path: string, read: () => Promise<LoadedScore>): Promise<LoadedScore> => {
    const key = resolve(path);
    const known = shelf.get(key) ?? read();
    shelf.set(key, known);
    return known;
  };
  return {
    load: path => take(path, async () => analyseFile(await readSource(path))),
    loadBeside: async (lesson, score) => {
      const folder = dirname(lesson);
      const path = isAbsolute(score.value) ? score.value : join(folder, score.value);
      if (!allowOutside && !(await isInside(folder, path)))
        return { analysis: undefined, diagnostics: [outside(score)] };
      const loaded = await take(path, async () => analyseFile(await readSource(path)));
      // A file that cannot be read has no text to point at; what names it has.
      const located = loaded.diagnostics.map(finding =>
        finding.span === undefined ? { ...finding, span: score.span } : finding,
      );
      return { ...loaded, diagnostics: located };
    },
  };
}

function analyseFile({ value, diagnostics }: Awaited<ReturnType<typeof readSource>>): LoadedScore {
  if (value === undefined) return { analysis: undefined, diagnostics };
  const score = readScore(value);
  return {
    analysis: score.value.notes.length === 0 ? undefined : analyse(score.value),
    diagnostics: score.diagnostics,
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
