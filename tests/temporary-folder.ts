import { chmodSync, mkdirSync, mkdtempSync, readdirSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const prefix = 'barwise-tests-';

/** Node asks for one of these, on each system for another. */
const variables = ['TMPDIR', 'TEMP', 'TMP'] as const;

/** The browser of an npm package for Linux unpacks itself into the system's folder, once for all runs. */
const browser = 'chromium';

/**
 * Gives this process, and every process that it starts, a folder of its own for temporary files, and removes it with all that is in it:
 * pages, profiles of browsers, whatever a test that fails or a program that is killed leaves behind. Folders of runs that were killed
 * themselves are swept.
 */
export function ownTemporaryFolder(): () => void {
  const system = tmpdir();
  sweep(system);
  const own = mkdtempSync(join(system, `${prefix}${String(process.pid)}-`));
  // Programs that tests start as another user write here as well.
  chmodSync(own, 0o1777);
  if (process.platform === 'linux') symlinkSync(join(system, browser), join(own, browser));
  const before = variables.map(name => [name, process.env[name]] as const);
  for (const name of variables) process.env[name] = own;
  return () => {
    for (const [name, value] of before)
      if (value === undefined) Reflect.deleteProperty(process.env, name);
      else process.env[name] = value;
    // A browser that is just ending may still write into its profile.
    rmSync(own, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  };
}

/** Speech that tests may share and keep from run to run, beside what else is built. */
export function sharedSpeech(): string {
  const folder = join(import.meta.dirname, '../build/test-speech');
  mkdirSync(folder, { recursive: true });
  return folder;
}

function sweep(system: string): void {
  for (const name of readdirSync(system)) {
    const pid = Number(new RegExp(`^${prefix}(\\d+)-`).exec(name)?.[1] ?? NaN);
    if (Number.isNaN(pid) || isRunning(pid)) continue;
    try {
      rmSync(join(system, name), { recursive: true, force: true });
    } catch {
      // It belongs to somebody else.
    }
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}

/** For vitest, before the first and after the last test (see vitest.config.ts). */
export default ownTemporaryFolder;
