import { copyFile, mkdir, readdir, rename, rm } from 'node:fs/promises';
import { extname, join } from 'node:path';

/** Recordings that were replaced or taken back, kept of each text. */
const mostKept = 10;

const stemOf = (name: string): string => name.slice(0, name.length - extname(name).length);

/** Files of a folder that hold a take of a text. */
export async function takeFiles(folder: string, id: string): Promise<readonly string[]> {
  const names = await readdir(folder).catch((): readonly string[] => []);
  return names.filter(name => stemOf(name) === id && extname(name) !== '.part');
}

interface KeptTake {
  readonly name: string;
  readonly number: number;
}

/** Recordings of a text that were set aside, the oldest first. */
async function keptTakes(folder: string, id: string): Promise<readonly KeptTake[]> {
  const names = await readdir(folder).catch((): readonly string[] => []);
  return names
    .flatMap(name => {
      const [, of, number] = /^(.+) \((\d+)\)$/u.exec(stemOf(name)) ?? [];
      return of === id ? [{ name, number: Number(number) }] : [];
    })
    .sort((a, b) => a.number - b.number);
}

/** A folder beside the takes for recordings that are no longer used; nothing that was recorded is thrown away at once. */
export interface Aside {
  /** Copies a recording there; the place of the take stays filled meanwhile. */
  readonly keep: (id: string, file: string) => Promise<void>;
  /** Moves the latest recording of a text back to a folder; `false` where there is none. */
  readonly bringBack: (id: string, folder: string) => Promise<boolean>;
  readonly has: (id: string) => Promise<boolean>;
}

export function asideIn(folder: string): Aside {
  return {
    keep: async (id, file) => {
      await mkdir(folder, { recursive: true });
      const kept = await keptTakes(folder, id);
      const number = (kept.at(-1)?.number ?? 0) + 1;
      await copyFile(file, join(folder, `${id} (${String(number)})${extname(file)}`));
      for (const { name } of kept.slice(0, Math.max(0, kept.length + 1 - mostKept)))
        await rm(join(folder, name), { force: true });
    },
    bringBack: async (id, to) => {
      const latest = (await keptTakes(folder, id)).at(-1);
      if (latest === undefined) return false;
      await rename(join(folder, latest.name), join(to, `${id}${extname(latest.name)}`));
      return true;
    },
    has: async id => (await keptTakes(folder, id)).length > 0,
  };
}
