import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { build } from 'vite';
import { built } from '../built.js';
import { root } from '../workshop/bench.js';

/** The folder of the workshop's window as it is in the sources now, with a slash at its end. */
export async function windowFiles(): Promise<string> {
  const made = built('studio/index.html');
  if (made !== undefined) return `${dirname(made)}/`;
  const folder = mkdtempSync(join(tmpdir(), 'barwise-studio-'));
  await build({
    configFile: `${root}vite.studio.config.ts`,
    root: `${root}src/studio`,
    logLevel: 'error',
    build: { outDir: folder, emptyOutDir: true },
  });
  return `${folder}/`;
}
