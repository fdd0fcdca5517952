import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll } from 'vitest';
import { built } from '../built.js';

export const root = fileURLToPath(new URL('../../', import.meta.url));

export interface Outcome {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** What the shell that runs the tests may have set. */
const terminalVariables: readonly string[] = ['COLUMNS', 'NO_COLOR', 'FORCE_COLOR'];

/** The built program where it is newer than every source, else the sources themselves, which start more slowly. */
const program = built('cli/main.js');
export const programWords: readonly string[] =
  program === undefined
    ? ['--import', `${root}node_modules/tsx/dist/loader.mjs`, `${root}src/cli/main.ts`]
    : [program];

/** Speech is kept here while one file of tests runs, not where the developer keeps theirs. */
const cache = mkdtempSync(join(tmpdir(), 'barwise-test-cache-'));
afterAll(() => {
  rmSync(cache, { recursive: true, force: true });
});

/** The command that runs the program, for a shell. */
export const commandLine = (words: readonly string[]): string =>
  [process.execPath, ...programWords, ...words].map(word => `'${word}'`).join(' ');

/** Runs the program as a process of its own. */
export function barwise(
  words: readonly string[],
  options: { readonly cwd?: string; readonly env?: Readonly<Record<string, string>> } = {},
): Promise<Outcome> {
  const own = Object.fromEntries(
    Object.entries(process.env).filter(([name]) => !terminalVariables.includes(name)),
  );
  const child = spawn(process.execPath, [...programWords, ...words], {
    cwd: options.cwd ?? root,
    env: { ...own, XDG_CACHE_HOME: cache, ...options.env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const texts = { stdout: '', stderr: '' };
  child.stdout.setEncoding('utf8').on('data', (text: string) => (texts.stdout += text));
  child.stderr.setEncoding('utf8').on('data', (text: string) => (texts.stderr += text));
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', code => {
      resolve({ code, ...texts });
    });
  });
}
