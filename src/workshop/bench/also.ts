import { companions } from '../../output/index.js';
import type { Companion } from '../../output/index.js';
import type { AudioFiles } from '../../sound/index.js';

/** Kinds of sound file that `--also` can name. */
const sounds = ['wav', 'mp3', 'm4a'] as const satisfies readonly (keyof AudioFiles)[];
type Sound = (typeof sounds)[number];

/** Every word that `--also` takes. */
export const alsoWords: readonly string[] = [...companions, ...sounds];

/** What a build makes beside the page. */
export interface Also {
  readonly companions: readonly Companion[];
  readonly sounds: readonly Sound[];
}

/** Reads `srt,script,mp3` or `all`; a word that is none of them is returned as it is. */
export function readAlso(list: string): Also | { readonly unknown: string } {
  const words = list
    .split(',')
    .map(word => word.trim())
    .filter(word => word !== '');
  const wanted = words.includes('all') ? alsoWords : words;
  const unknown = wanted.find(word => !alsoWords.includes(word));
  if (unknown !== undefined) return { unknown };
  return {
    companions: companions.filter(word => wanted.includes(word)),
    sounds: sounds.filter(word => wanted.includes(word)),
  };
}
