import { readdir, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';

/** Half-written files and exports as this program names them (write-whole.ts, write-audio.ts, and of the workshop replace-file.ts and build-lesson.ts). */
const ownPart = /^\.(?:.+\.|export-)[0-9a-f]{12}\.part$/u;
/** What another program may still be writing is younger, in milliseconds. */
const stale = 60 * 60 * 1000;

/** Removes what a program that was killed while it wrote has left in a folder. The text itself was kept before it was written. */
export async function sweepParts(folder: string, now = Date.now()): Promise<void> {
  const names = await readdir(folder).catch((): readonly string[] => []);
  for (const name of names.filter(one => ownPart.test(one))) {
    const path = join(folder, name);
    const status = await stat(path).catch(() => undefined);
    if (status !== undefined && now - status.mtimeMs > stale)
      await rm(path, { recursive: true, force: true }).catch(() => undefined);
  }
}
