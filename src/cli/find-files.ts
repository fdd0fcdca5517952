import { readdir, stat } from 'node:fs/promises';
import { extname, join } from 'node:path';
import { glob, isDynamicPattern } from 'tinyglobby';
import type { Diagnostic } from '../diagnostics/index.js';
import { runFinding } from './report.js';

export interface FoundFiles {
  readonly files: readonly string[];
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * The files that the paths name: a file stands for itself, a folder for every file in it and below it with one of the
 * endings, a pattern (`*`, `?`, `**`, braces) for what it matches; in the order of their names, `lesson 2` before
 * `lesson 10`. Hidden folders and
 * `node_modules` are left out; links are not followed.
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
    const isPattern = status === undefined && isDynamicPattern(path);
    if (status?.isDirectory() !== true && !isPattern) {
      files.push(path);
      continue;
    }
    const found = isPattern ? await filesLike(path, endings) : await filesBelow(path, endings);
    if (found.length === 0) {
      const message = isPattern
        ? `no ${what} is named like \`${path}\``
        : `there is no ${what} in \`${path}\``;
      diagnostics.push(runFinding('R0011', message, `looked for files that end in ${endings.join(' or ')}`));
    }
    files.push(...found);
  }
  return { files: [...new Set(files)], diagnostics };
}

const collator = new Intl.Collator('en', { numeric: true });
/** As a reader counts; names that count alike (`01`, `1`) by their characters, so that the order is always the same. */
const byName = (a: string, b: string): number => collator.compare(a, b) || (a < b ? -1 : 1);

/** Shells leave a pattern in quotes as it is; an existing file is never taken for one. */
async function filesLike(pattern: string, endings: readonly string[]): Promise<readonly string[]> {
  const found = await glob(pattern, {
    ignore: ['**/node_modules/**'],
    expandDirectories: false,
    followSymbolicLinks: false,
  });
  return found.filter(path => endings.includes(extname(path).toLowerCase())).sort(byName);
}

async function filesBelow(folder: string, endings: readonly string[]): Promise<readonly string[]> {
  const entries = (await readdir(folder, { withFileTypes: true })).sort((a, b) => byName(a.name, b.name));
  const found: string[] = [];
  for (const entry of entries) {
    const path = join(folder, entry.name);
    if (entry.isDirectory() && !entry.name.startsWith('.') && entry.name !== 'node_modules') {
      found.push(...(await filesBelow(path, endings)));
    } else if (entry.isFile() && endings.includes(extname(entry.name).toLowerCase())) found.push(path);
  }
  return found;
}
