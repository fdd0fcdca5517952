/** What tests of takes need: folders of their own, and programs that write there until they are killed. */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach } from 'vitest';
import { root, until } from './bench.js';

const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** An empty folder that is removed after the test. */
export function takesPlace(): string {
  const folder = mkdtempSync(join(tmpdir(), 'barwise-takes-'));
  folders.push(folder);
  return folder;
}

/**
 * Runs a program of tests/workshop that goes on for ever, and kills it.
 * @param isTime whether it has said enough; it is killed some milliseconds later
 * @returns all that it said
 */
export async function killed(
  program: string,
  words: readonly string[],
  isTime: (said: string) => boolean,
  later: number,
): Promise<string> {
  const loader = join(root, 'node_modules/tsx/dist/loader.mjs');
  const child = spawn(
    process.execPath,
    ['--import', loader, join(root, 'tests/workshop', program), ...words],
    { stdio: ['ignore', 'pipe', 'inherit'] },
  );
  let said = '';
  child.stdout.on('data', part => (said += String(part)));
  const ended = new Promise(done => child.on('close', done));
  await until(() => isTime(said));
  await new Promise(done => setTimeout(done, later));
  child.kill('SIGKILL');
  await ended;
  return said;
}
