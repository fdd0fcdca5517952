import { createHash } from 'node:crypto';
import { mkdir, readFile, readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { readState } from './file-state.js';
import { replaceFile } from './replace-file.js';
import { sweepParts } from '../../output/index.js';

const entry = z.object({
  path: z.string(),
  text: z.string(),
  base: z.string().optional(),
  baseText: z.string().optional(),
  at: z.number(),
});

/** Work that has not been saved. */
export interface JournalEntry {
  readonly path: string;
  readonly text: string;
  /** Stamp of the state that it grew from; absent where the lesson was never on the disk. */
  readonly base?: string;
  /** Text of that state, where it was on the disk when the work was kept first. */
  readonly baseText?: string;
  /** When it was kept, in milliseconds since 1970. */
  readonly at: number;
}

/** Unsaved work in a folder, a file for each lesson, written whole: it outlives the window and its host. */
export interface Journal {
  readonly keep: (unsaved: Omit<JournalEntry, 'at' | 'baseText'>) => Promise<void>;
  readonly find: (path: string) => Promise<JournalEntry | undefined>;
  readonly forget: (path: string) => Promise<void>;
  /** All of it, newest first. */
  readonly list: () => Promise<readonly JournalEntry[]>;
}

export function journalIn(folder: string): Journal {
  const fileOf = (path: string): string =>
    join(folder, `${createHash('sha256').update(path).digest('hex').slice(0, 32)}.json`);
  const read = async (file: string): Promise<JournalEntry | undefined> => {
    try {
      const { path, text, base, baseText, at } = entry.parse(JSON.parse(await readFile(file, 'utf8')));
      return {
        path,
        text,
        at,
        ...(base === undefined ? {} : { base }),
        ...(baseText === undefined ? {} : { baseText }),
      };
    } catch {
      return undefined;
    }
  };
  /** From which words the work grew: another program may replace them on the disk before it is merged with theirs. */
  const baseTextOf = async (path: string, base: string | undefined): Promise<string | undefined> => {
    if (base === undefined) return undefined;
    const kept = await read(fileOf(path));
    if (kept?.base === base && kept.baseText !== undefined) return kept.baseText;
    const state = await readState(path);
    return state?.ok === true && state.stamp === base ? state.text : undefined;
  };
  return {
    keep: async unsaved => {
      await mkdir(folder, { recursive: true });
      const baseText = await baseTextOf(unsaved.path, unsaved.base);
      const kept = { ...unsaved, baseText, at: Date.now() };
      await replaceFile(fileOf(unsaved.path), Buffer.from(JSON.stringify(kept)));
    },
    find: path => read(fileOf(path)),
    forget: path => rm(fileOf(path), { force: true }),
    list: async () => {
      await sweepParts(folder);
      const names = await readdir(folder).catch((): readonly string[] => []);
      const entries = await Promise.all(
        names.filter(name => /^[0-9a-f]{32}\.json$/u.test(name)).map(name => read(join(folder, name))),
      );
      return entries.flatMap(found => found ?? []).sort((a, b) => b.at - a.at);
    },
  };
}
