import { realpath } from 'node:fs/promises';
import { basename, dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { refused } from '../answer.js';
import type { Refusal } from '../answer.js';

/** The part of the disk that the window may name files in: folders that the user chose, and what lies below them. */
export interface Reach {
  /** The path with its links followed; `undefined` where it lies outside. The file need not exist, its folder must. */
  readonly within: (path: string) => Promise<string | undefined>;
  readonly extend: (folder: string) => Promise<void>;
}

export async function reachOf(folders: readonly string[]): Promise<Reach> {
  const allowed = new Set<string>();
  const extend = async (folder: string): Promise<void> => {
    const real = await followed(folder);
    if (real !== undefined) allowed.add(real);
  };
  for (const folder of folders) await extend(folder);
  return {
    extend,
    within: async path => {
      if (path.includes('\0')) return undefined;
      const real = await followed(resolve(path));
      return real !== undefined && [...allowed].some(folder => isBelow(folder, real)) ? real : undefined;
    },
  };
}

async function followed(path: string): Promise<string | undefined> {
  try {
    return await realpath(path);
  } catch {
    // A new file is judged by its folder. A link that leads nowhere is judged by its own place, and replaced, not followed.
    const folder = await realpath(dirname(path)).catch(() => undefined);
    return folder === undefined ? undefined : join(folder, basename(path));
  }
}

function isBelow(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}

export const outOfReach = (path: string): Refusal =>
  refused(`\`${path}\` lies outside the folders that you opened, or its folder is missing`);
