import { execFile } from 'node:child_process';
import { mkdir, mkdtemp, realpath, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join, normalize, relative, resolve, sep } from 'node:path';
import { promisify } from 'node:util';
import { sourceText } from '../diagnostics/index.js';
import { comparedVersions, readLesson } from '../lesson/index.js';
import { earlierLesson } from '../output/index.js';
import type { EarlierReport } from '../output/index.js';
import { checkMany } from './check-many.js';

const run = promisify(execFile);

/** What git prints; `undefined` where it refuses or is not there. */
async function git(folder: string, ...words: readonly string[]): Promise<string | undefined> {
  try {
    const { stdout } = await run('git', ['-C', folder, ...words], { maxBuffer: 4_000_000, encoding: 'utf8' });
    return stdout;
  } catch {
    return undefined;
  }
}

/**
 * Checks lessons as they were at a git revision, with their scores of that time. The files of that time are laid in a folder of their own, so
 * that nothing in the author's folder is touched. `undefined` where there is no such revision; a lesson that it does not have is left out.
 */
export async function earlierRevision(
  revision: string,
  files: readonly string[],
  allowOutside: boolean,
): Promise<EarlierReport | undefined> {
  const folder = dirname(resolve(files[0] ?? '.'));
  const root = (await git(folder, 'rev-parse', '--show-toplevel'))?.trimEnd();
  const commit = (
    await git(folder, 'rev-parse', '--verify', '--quiet', '--end-of-options', `${revision}^{commit}`)
  )?.trim();
  if (root === undefined || commit === undefined) return undefined;
  const place = await mkdtemp(join(tmpdir(), 'barwise-earlier-'));
  try {
    const laid: { readonly file: string; readonly path: string }[] = [];
    for (const file of files) {
      const path = relative(root, await realpath(file).catch(() => resolve(file)));
      if (await layOut(root, commit, path, place)) laid.push({ file, path: join(place, path) });
    }
    const checked = await checkMany(
      laid.map(({ path }) => path),
      { allowOutside, withSubject: false },
    );
    return {
      lessons: laid.flatMap(({ file }, index) => {
        const report = checked[index]?.report;
        return report === undefined ? [] : [earlierLesson({ ...report, file })];
      }),
    };
  } finally {
    await rm(place, { recursive: true, force: true });
  }
}

/** Lays a lesson of that time, and the scores that it names, where they stand in the repository. */
async function layOut(root: string, commit: string, path: string, place: string): Promise<boolean> {
  const text = await fileThen(root, commit, path);
  if (text === undefined) return false;
  await lay(place, path, text);
  const lesson = readLesson(sourceText(path, text)).value;
  if (lesson === undefined) return true;
  const played = lesson.steps.flatMap(({ script }) =>
    script.flatMap(action => (action.kind === 'play' ? (action.score ?? []) : [])),
  );
  for (const { value } of [lesson.score, ...played, ...comparedVersions(lesson)]) {
    const score = normalize(join(dirname(path), value));
    const content = await fileThen(root, commit, score);
    if (content !== undefined) await lay(place, score, content);
  }
  return true;
}

/** A file as it was, by its path in the repository; nothing outside of it. */
const fileThen = (root: string, commit: string, path: string): Promise<string | undefined> =>
  path.startsWith('..')
    ? Promise.resolve(undefined)
    : git(root, 'show', `${commit}:${path.split(sep).join('/')}`);

async function lay(place: string, path: string, text: string): Promise<void> {
  const target = join(place, path);
  await mkdir(dirname(target), { recursive: true });
  await writeFile(target, text);
}
