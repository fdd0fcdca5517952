import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** The page's program and its look, as built from src/player. */
export interface PlayerBundle {
  readonly script: string;
  readonly style: string;
}

/** Beside the compiled output, or in dist/ where the sources run. */
const places = ['../player/', '../../dist/player/'].map(path =>
  fileURLToPath(new URL(path, import.meta.url)),
);

/** Reads the built player. Throws where it has not been built. */
export function readPlayerBundle(): PlayerBundle {
  const folder = places.find(place => existsSync(`${place}player.js`) && existsSync(`${place}player.css`));
  if (folder === undefined)
    throw new Error(`the page's program is missing: build the player first (looked in ${places.join(', ')})`);
  return {
    script: readFileSync(`${folder}player.js`, 'utf8'),
    style: readFileSync(`${folder}player.css`, 'utf8'),
  };
}
