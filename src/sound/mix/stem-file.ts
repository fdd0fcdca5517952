import { mkdtemp, open, rm } from 'node:fs/promises';
import type { FileHandle } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Sound that is kept on disk while its loudness is measured, so that an hour of it needs no memory. Silent blocks take no room. */
export interface StemFile {
  readonly write: (block: Float32Array) => Promise<void>;
  /** The block that was written as number `index`; `undefined` for a silent one and beyond the end. */
  readonly read: (index: number) => Promise<Float32Array | undefined>;
  readonly remove: () => Promise<void>;
}

/** Makes a stem file in the folder for temporary files. */
export async function createStemFile(): Promise<StemFile> {
  const folder = await mkdtemp(join(tmpdir(), 'barwise-mix-'));
  const file: FileHandle = await open(join(folder, 'stem'), 'w+');
  const places: { readonly position: number; readonly length: number }[] = [];
  let end = 0;
  return {
    write: async block => {
      const silent = block.every(sample => sample === 0);
      places.push({ position: end, length: silent ? 0 : block.length });
      if (silent) return;
      await file.write(
        new Uint8Array(block.buffer, block.byteOffset, block.byteLength),
        0,
        block.byteLength,
        end,
      );
      end += block.byteLength;
    },
    read: async index => {
      const place = places[index];
      if (place === undefined || place.length === 0) return undefined;
      const block = new Float32Array(place.length);
      await file.read(new Uint8Array(block.buffer), 0, block.byteLength, place.position);
      return block;
    },
    remove: async () => {
      await file.close();
      await rm(folder, { recursive: true, force: true });
    },
  };
}
