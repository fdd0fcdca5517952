import { createHash } from 'node:crypto';
import { mkdir, readdir, rm } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { replaceFile } from './replace-file.js';
import { sweepParts } from '../../output/index.js';

/** Former states that are kept of each lesson. */
const mostKept = 20;

/** Keeps the former states of lessons. */
export interface Backups {
  /** @returns where it was kept; `undefined` where that was not possible, which must not keep anybody from saving */
  readonly keep: (path: string, former: Uint8Array) => Promise<string | undefined>;
}

/** Former states in a folder: below it a folder for each lesson, in it a file for each state, named by the time at which it was replaced. */
export function backupsIn(folder: string): Backups {
  return {
    keep: async (path, former) => {
      const name = basename(path);
      const shelf = join(
        folder,
        `${name}-${createHash('sha256').update(path).digest('hex').slice(0, 8)}`.replaceAll(/[^\w.-]/gu, '-'),
      );
      try {
        await mkdir(shelf, { recursive: true });
        await sweepParts(shelf);
        const kept = join(shelf, `${new Date().toISOString().replaceAll(':', '.')}-${name}`);
        await replaceFile(kept, former);
        const names = (await readdir(shelf)).filter(other => other.endsWith(`-${name}`)).sort();
        for (const old of names.slice(0, -mostKept)) await rm(join(shelf, old), { force: true });
        return kept;
      } catch {
        return undefined;
      }
    },
  };
}
