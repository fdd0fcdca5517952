import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';

/** SHA-256 of a file's bytes in hexadecimal digits, as `sha256sum` prints it; empty where the file cannot be read. */
export async function fileHash(path: string): Promise<string> {
  const bytes = await readFile(path).catch(() => undefined);
  return bytes === undefined ? '' : createHash('sha256').update(bytes).digest('hex');
}
