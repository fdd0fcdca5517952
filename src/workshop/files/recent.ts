import { access, mkdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { replaceFile } from './replace-file.js';
import { turns } from './turns.js';

const mostRecent = 12;
const list = z.array(z.object({ path: z.string(), title: z.string() }));

export interface RecentLesson {
  readonly path: string;
  readonly title: string;
}

/** Lessons that were opened lately. */
export interface Recent {
  readonly add: (lesson: RecentLesson) => Promise<void>;
  /** Those that are still there, newest first. */
  readonly list: () => Promise<readonly RecentLesson[]>;
}

/** The list in a folder. It is a convenience: where it cannot be written, nothing else fails. */
export function recentIn(folder: string): Recent {
  const file = join(folder, 'recent.json');
  const inTurn = turns();
  const read = async (): Promise<readonly RecentLesson[]> => {
    try {
      return list.parse(JSON.parse(await readFile(file, 'utf8')));
    } catch {
      return [];
    }
  };
  return {
    add: lesson =>
      inTurn(file, async () => {
        const others = (await read()).filter(({ path }) => path !== lesson.path);
        const next = [lesson, ...others].slice(0, mostRecent);
        try {
          await mkdir(folder, { recursive: true });
          await replaceFile(file, Buffer.from(JSON.stringify(next, undefined, 2)));
        } catch {
          // See above.
        }
      }),
    list: async () => {
      const known = await read();
      const there = await Promise.all(
        known.map(({ path }) =>
          access(path).then(
            () => true,
            () => false,
          ),
        ),
      );
      return known.filter((_, index) => there[index]);
    },
  };
}
