import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { extname } from 'node:path';
import { fileURLToPath } from 'node:url';

/** What a file is sent as (IANA media types). */
const types: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.wasm': 'application/wasm',
  '.woff': 'font/woff',
  '.woff2': 'font/woff2',
};

export interface StudioFile {
  readonly type: string;
  readonly bytes: Uint8Array;
}

/** The window's program, as built from src/studio. */
export interface StudioFiles {
  /** @param address `/assets/window.js`; only files that were there when the host started are found */
  readonly find: (address: string) => StudioFile | undefined;
}

/** Beside the compiled program, or in dist/ where the sources run. */
const places = ['../studio/', '../../../dist/studio/'].map(path =>
  fileURLToPath(new URL(path, import.meta.url)),
);

/**
 * Finds the built window.
 * @param named its folder, with a slash at the end; the one that belongs to this program where absent
 * @throws where it has not been built
 */
export function studioFiles(named?: string): StudioFiles {
  const folder = [named ?? places].flat().find(place => existsSync(`${place}index.html`));
  if (folder === undefined)
    throw new Error(`the workshop's window is missing: build it first (looked in ${places.join(', ')})`);
  const names = new Set(
    readdirSync(folder, { recursive: true, encoding: 'utf8' }).map(name => `/${name.replaceAll('\\', '/')}`),
  );
  return {
    find: address => {
      const name = address === '/' ? '/index.html' : address;
      const type = types[extname(name)];
      if (type === undefined || !names.has(name)) return undefined;
      return { type, bytes: readFileSync(`${folder}${name.slice(1)}`) };
    },
  };
}
