import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

const root = join(import.meta.dirname, '..');

const changedAt = (path: string): number => statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0;

/** When the newest of all sources and of the ways in which they are bundled was written. */
const sourcesAt = Math.max(
  ...readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' }).map(path =>
    changedAt(join(root, 'src', path)),
  ),
  ...readdirSync(root)
    .filter(name => /^vite\..*\.ts$|^package-lock\.json$/u.test(name))
    .map(name => changedAt(join(root, name))),
);

/**
 * A file of the last `npm run build`, which spares a test to bundle or to compile by itself what is there already.
 * @param file below `dist`, such as `cli/main.js`
 * @returns its path, or `undefined` where it is older than any source, so that no test runs against an old build
 */
export function built(file: string): string | undefined {
  const path = join(root, 'dist', file);
  return changedAt(path) > sourcesAt ? path : undefined;
}
