import { readdir, stat } from 'node:fs/promises';
import { dirname, extname, join } from 'node:path';
import type { Answer, Answers, FolderEntry } from '../../bridge/index.js';
import { granted, refusedBySystem } from '../answer.js';
import { outOfReach } from './reach.js';
import type { Reach } from './reach.js';

const lessonEndings: readonly string[] = ['.yaml', '.yml'];
const scoreEndings: readonly string[] = ['.abc'];

export const isLessonName = (name: string): boolean => lessonEndings.includes(extname(name).toLowerCase());

function kindOf(name: string, isFolder: boolean): FolderEntry['kind'] | undefined {
  if (name.startsWith('.') || name === 'node_modules') return undefined;
  if (isFolder) return 'folder';
  if (isLessonName(name)) return 'lesson';
  return scoreEndings.includes(extname(name).toLowerCase()) ? 'score' : undefined;
}

/** The folders, lessons and scores in a folder. */
export async function browse(folder: string, reach: Reach): Promise<Answer<Answers['browse']>> {
  const real = await reach.within(folder);
  if (real === undefined) return outOfReach(folder);
  try {
    const names = await readdir(real);
    const found = await Promise.all(
      names.map(async (name): Promise<readonly FolderEntry[]> => {
        const path = join(real, name);
        const status = await stat(path).catch(() => undefined);
        const kind = status === undefined ? undefined : kindOf(name, status.isDirectory());
        return kind === undefined || (await reach.within(path)) === undefined ? [] : [{ name, path, kind }];
      }),
    );
    const rank = ({ kind }: FolderEntry): number => ['folder', 'lesson', 'score'].indexOf(kind);
    const parent = dirname(real);
    return granted({
      folder: real,
      ...(parent === real || (await reach.within(parent)) === undefined ? {} : { parent }),
      entries: found.flat().sort((a, b) => rank(a) - rank(b) || a.name.localeCompare(b.name)),
    });
  } catch (error) {
    return refusedBySystem(error, `the folder \`${folder}\` cannot be read`);
  }
}
