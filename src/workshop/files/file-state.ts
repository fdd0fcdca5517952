import { createHash } from 'node:crypto';
import { isUtf8 } from 'node:buffer';
import { readFile, stat } from 'node:fs/promises';
import { basename } from 'node:path';
import { mostText } from '../../bridge/index.js';
import { refused, refusedBySystem } from '../answer.js';
import type { Refusal } from '../answer.js';

/** A text file as it stood on the disk at one moment. */
export interface FileState {
  readonly ok: true;
  readonly text: string;
  readonly bytes: Uint8Array;
  /** SHA-256 of the bytes. */
  readonly stamp: string;
}

export const stampOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** Reads a text file; `undefined` where there is none. */
export async function readState(path: string): Promise<FileState | Refusal | undefined> {
  const name = `\`${basename(path)}\``;
  try {
    const status = await stat(path);
    if (!status.isFile()) return refused(`${name} is ${status.isDirectory() ? 'a folder' : 'not a file'}`);
    if (status.size > mostText)
      return refused(
        `${name} has ${(status.size / 1_000_000).toFixed(1)} MB, and texts up to ${String(mostText / 1_000_000)} MB are opened`,
      );
    const bytes = await readFile(path);
    if (!isUtf8(bytes))
      return refused(`${name} is not UTF-8 text`, 'save it as UTF-8 in another editor first');
    return { ok: true, text: bytes.toString('utf8'), bytes, stamp: stampOf(bytes) };
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : undefined;
    if (code === 'ENOENT' || code === 'ENOTDIR') return undefined;
    return refusedBySystem(error, `${name} cannot be read`);
  }
}
