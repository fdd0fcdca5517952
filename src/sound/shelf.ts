import type { Mono } from './mono.js';
import { openScratchFile } from './scratch-file.js';
import type { Place, ScratchFile } from './scratch-file.js';

/** Keeps sound on disk until it is asked for, so that an hour of speech needs no memory. */
export interface Shelf {
  /** The same sound; each look at its `samples` reads them anew, so a loop over them takes them once. */
  readonly put: <S extends Mono>(sound: S) => Promise<S>;
  /** Removes everything; sounds that were put here have no samples any more. */
  readonly clear: () => Promise<void>;
}

/** Makes a shelf in the folder for temporary files; its file is made when something is put on it. */
export function makeShelf(): Shelf {
  let opened: Promise<ScratchFile> | undefined;
  return {
    put: async sound => {
      let file: ScratchFile;
      let place: Place;
      try {
        file = await (opened ??= openScratchFile());
        place = await file.write(sound.samples);
      } catch {
        // A disk that is full costs memory, not the build.
        return sound;
      }
      const samples = (): Float32Array => file.read(place);
      return Object.defineProperty({ ...sound }, 'samples', { get: samples, enumerable: true });
    },
    clear: async () => {
      await (await opened?.catch(() => undefined))?.remove();
    },
  };
}
