import { stat } from 'node:fs/promises';
import { counted } from '../output/index.js';
import type { Terminal } from './terminal.js';

const sizeInWords = (bytes: number): string =>
  bytes < 1000 ? counted(bytes, 'byte') : `${(bytes / 1000).toFixed(0)} kB`;

/** Names the files that were written, each with its size. */
export async function listWritten(terminal: Terminal, paths: readonly string[]): Promise<void> {
  terminal.write(`\n${counted(paths.length, 'file')} written:\n`);
  for (const path of paths) terminal.write(`  ${path}  ${sizeInWords((await stat(path)).size)}\n`);
}
