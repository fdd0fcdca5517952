import { readdir, stat } from 'node:fs/promises';
import { extname, join } from 'node:path';
import type { Diagnostic } from '../diagnostics/index.js';
import { runFinding } from './report.js';

export interface FoundFiles {
  readonly files: readonly string[];
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * The files that the paths name: a file stands for itself, a folder for every file in it and below it with one of the
 * endings, in the order of their names. Hidden folders and `node_modules` are left out; links are not followed.
 */
export async function findFiles(
  paths: readonly string[],
  endings: readonly string[],
  what: string,
): Promise<FoundFiles> {
  const files: string[] = [];
  const diagnostics: Diagnostic[] = [];
  for (const path of paths) {
    const status = await stat(path).catch(() => undefined);
    if (status?.isDirectory() !== true) {
      files.push(path);
      continue;
    }
    const found = await filesBelow(path, endings);
    if (found.length === 0) {
      diagnostics.push(
        runFinding(
          'R0011',
          `there is no ${what} in \`${path}\``,
          `looked for files that end in ${endings.join(' or ')}`,
        ),
      );
    }
    files.push(...found);
  }
  return { files: [...new Set(files)], diagnostics };
}

async function filesBelow(folder: string, endings: readonly string[]): Promise<readonly string[]> {
  const entries = (await readdir(folder, { withFileTypes: true })).sort((a, b) => (a.name < b.name ? -1 : 1));
  const found: string[] = [];
  for (const entry of entries) {
    const path = join(folder, entry.name);
    if (entry.isDirectory() && !entry.name.startsWith('.') && entry.name !== 'node_modules') {
      found.push(...(await filesBelow(path, endings)));
    } else if (entry.isFile() && endings.includes(extname(entry.name).toLowerCase())) found.push(path);
  }
  return found;
}
