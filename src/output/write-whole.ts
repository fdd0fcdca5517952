import { randomBytes } from 'node:crypto';
import { constants } from 'node:fs';
import { access, mkdir, open, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import type { OutputFile } from './output-file.js';
import { sweepParts } from './sweep-parts.js';

/**
 * Writes files into a folder: each goes to a temporary name beside its place and to the disk, and only when every one has
 * arrived are they renamed. A file that was there before stays whole until its successor replaces it. What a program that was
 * killed has left of an earlier writing is removed.
 *
 * @returns the paths written, in the order given
 * @throws the error of the file system (`EACCES`, `ENOSPC`, `ENOTDIR` ...); then no temporary file is left behind
 */
export async function writeWhole(folder: string, files: readonly OutputFile[]): Promise<readonly string[]> {
  for (const { name } of files) {
    if (basename(name) !== name || name === '..' || name === '.')
      throw new RangeError(`not a plain file name: ${name}`);
  }
  await makeFolder(resolve(folder));
  await sweepParts(folder);
  const written: { readonly temporary: string; readonly target: string }[] = [];
  try {
    for (const { name, bytes } of files) {
      const temporary = join(folder, `.${name}.${randomBytes(6).toString('hex')}.part`);
      written.push({ temporary, target: join(folder, name) });
      await writeToDisk(temporary, bytes);
    }
    for (const { temporary, target } of written) await rename(temporary, target);
  } catch (error) {
    await Promise.all(written.map(({ temporary }) => rm(temporary, { force: true })));
    throw error;
  }
  await syncFolder(folder);
  return written.map(({ target }) => target);
}

/**
 * Whether files could be written into a folder, which need not exist yet; asked before long work that would be lost.
 * @throws the error of the file system where they could not
 */
export async function checkWritable(folder: string): Promise<void> {
  const path = resolve(folder);
  try {
    const status = await stat(path);
    if (!status.isDirectory()) throw Object.assign(new Error(`not a folder: ${path}`), { code: 'EEXIST' });
    await access(path, constants.W_OK | constants.X_OK);
  } catch (error) {
    if (!isMissing(error) || dirname(path) === path) throw error;
    await checkWritable(dirname(path));
  }
}

/**
 * Makes a folder and those above it. The library's own way of doing so never ends where the system answers that a new
 * folder does not exist, as it does below /proc.
 */
async function makeFolder(path: string): Promise<void> {
  const existing = await stat(path).catch(() => undefined);
  if (existing?.isDirectory() === true) return;
  try {
    await mkdir(path);
  } catch (error) {
    if (!isMissing(error) || (await stat(dirname(path)).catch(() => undefined)) !== undefined) throw error;
    await makeFolder(dirname(path));
    await mkdir(path);
  }
}

const isMissing = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && error.code === 'ENOENT';

async function writeToDisk(path: string, bytes: Uint8Array): Promise<void> {
  const file = await open(path, 'wx', 0o666);
  try {
    await file.writeFile(bytes);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Makes the new names survive a power cut where the system can do so; Windows cannot open a folder. */
async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r').catch(() => undefined);
  await handle?.sync().catch(() => undefined);
  await handle?.close();
}
