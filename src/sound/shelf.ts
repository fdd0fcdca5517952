import { readFileSync } from 'node:fs';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Mono } from './mono.js';

/** Keeps sound on disk until it is asked for, so that an hour of speech needs no memory. */
export interface Shelf {
  /** The same sound; each look at its `samples` reads them anew, so a loop over them takes them once. */
  readonly put: <S extends Mono>(sound: S) => Promise<S>;
  /** Removes everything; sounds that were put here have no samples any more. */
  readonly clear: () => Promise<void>;
}

/** Makes a shelf in the folder for temporary files; the folder is made when something is put on it. */
export function makeShelf(): Shelf {
  let folder: Promise<string> | undefined;
  let count = 0;
  return {
    put: async sound => {
      const { buffer, byteOffset, byteLength } = sound.samples;
      let file: string;
      try {
        file = join(await (folder ??= mkdtemp(join(tmpdir(), 'barwise-speech-'))), String(count));
        count += 1;
        await writeFile(file, new Uint8Array(buffer, byteOffset, byteLength));
      } catch {
        // A disk that is full costs memory, not the build.
        return sound;
      }
      const samples = (): Float32Array => {
        const bytes = readFileSync(file);
        // A copy begins at a multiple of four bytes, which a buffer of Node need not.
        return new Float32Array(new Uint8Array(bytes).buffer);
      };
      return Object.defineProperty({ ...sound }, 'samples', { get: samples, enumerable: true });
    },
    clear: async () => {
      const made = await folder?.catch(() => undefined);
      if (made !== undefined) await rm(made, { recursive: true, force: true });
    },
  };
}
