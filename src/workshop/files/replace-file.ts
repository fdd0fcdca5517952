import { randomBytes } from 'node:crypto';
import { open, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';

/**
 * Replaces a file, or makes it, so that at every moment either the former or the new state stands there whole, and the new one has reached
 * the disk before it takes the name.
 *
 * @param ready asked when the new state lies on the disk beside the former; where it answers `false` nothing is replaced
 * @returns whether the file was replaced
 * @throws the error of the file system; then the former state stands and no temporary file is left
 */
export async function replaceFile(
  path: string,
  bytes: Uint8Array,
  ready: () => Promise<boolean> = () => Promise.resolve(true),
): Promise<boolean> {
  const temporary = join(dirname(path), `.${basename(path)}.${randomBytes(6).toString('hex')}.part`);
  try {
    const mode = (await stat(path).catch(() => undefined))?.mode;
    const file = await open(temporary, 'wx', 0o666);
    try {
      await file.writeFile(bytes);
      // A file that only its owner may read stays so.
      if (mode !== undefined) await file.chmod(mode & 0o777);
      await file.sync();
    } finally {
      await file.close();
    }
    if (!(await ready())) {
      await rm(temporary, { force: true });
      return false;
    }
    await rename(temporary, path);
  } catch (error) {
    await rm(temporary, { force: true }).catch(() => undefined);
    throw error;
  }
  await syncFolder(dirname(path));
  return true;
}

/** Makes the new name survive a power cut where the system can do so; Windows cannot open a folder. */
async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r').catch(() => undefined);
  await handle?.sync().catch(() => undefined);
  await handle?.close();
}
