import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

/**
 * Where Electron's program lies, `undefined` where it was not fetched. The package itself would start to fetch it when it is asked.
 * `ELECTRON_OVERRIDE_DIST_PATH` names the folder of another one, as it does for the package.
 */
export function electronProgram(): string | undefined {
  let folder: string;
  try {
    folder = dirname(createRequire(import.meta.url).resolve('electron/package.json'));
  } catch {
    return undefined;
  }
  const named = process.env['ELECTRON_OVERRIDE_DIST_PATH'];
  const list = join(folder, 'path.txt');
  const name = existsSync(list) ? readFileSync(list, 'utf8') : 'electron';
  const program = join(named ?? join(folder, 'dist'), name);
  return existsSync(program) ? program : undefined;
}
