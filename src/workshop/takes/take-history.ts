import { mkdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { replaceFile } from '../files/replace-file.js';

/** What spoke a text at one time. */
export interface TakeUse {
  /** Its number; absent where the voice spoke. */
  readonly recording?: number | undefined;
  /** Ends that were set by hand, in seconds. */
  readonly cut?: { readonly from: number; readonly to: number } | undefined;
  /** It came about outside the workshop, so nothing here undoes it. */
  readonly elsewhere?: boolean | undefined;
}

/** What is written down of the recordings of a text. */
export interface TakeHistory {
  /** The words that each was made with, by its number, where they are known. */
  readonly words: Readonly<Record<string, string>>;
  /** What spoke the text, the latest last. */
  readonly uses: readonly TakeUse[];
  /** Hash of the take that was written last: another file in its place comes from another program. */
  readonly written?: string | undefined;
}

/** Steps back that are kept; every recording stays all the same. */
const mostUses = 200;
const fileName = 'history.json';

const shape: z.ZodType<TakeHistory> = z.object({
  words: z.record(z.string(), z.string()),
  uses: z.array(
    z.object({
      recording: z.int().min(1).optional(),
      cut: z.object({ from: z.number(), to: z.number() }).optional(),
      elsewhere: z.boolean().optional(),
    }),
  ),
  written: z.string().optional(),
});

/** The history in a folder of recordings; an empty one where there is none that can be read. */
export async function readHistory(folder: string): Promise<TakeHistory> {
  try {
    return shape.parse(JSON.parse(await readFile(join(folder, fileName), 'utf8')));
  } catch {
    return { words: {}, uses: [] };
  }
}

/** Writes the history whole. */
export async function writeHistory(folder: string, history: TakeHistory): Promise<void> {
  await mkdir(folder, { recursive: true });
  const kept = { ...history, uses: history.uses.slice(-mostUses) };
  await replaceFile(join(folder, fileName), Buffer.from(`${JSON.stringify(kept, undefined, 2)}\n`));
}
