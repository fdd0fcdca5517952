import { mkdtemp, open, rm } from 'node:fs/promises';
import type { FileHandle } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Stereo } from '../stereo.js';

/** Sound that is kept on disk while its loudness is measured, so that an hour of it needs no memory. Silent blocks take no room. */
export interface StemFile {
  readonly write: (block: Stereo) => Promise<void>;
  /** The block that was written as number `index`; `undefined` for a silent one and beyond the end. */
  readonly read: (index: number) => Promise<Stereo | undefined>;
  readonly remove: () => Promise<void>;
}

/** Makes a stem file in the folder for temporary files. */
export async function createStemFile(): Promise<StemFile> {
  const folder = await mkdtemp(join(tmpdir(), 'barwise-mix-'));
  const file: FileHandle = await open(join(folder, 'stem'), 'w+');
  const places: { readonly position: number; readonly length: number }[] = [];
  let end = 0;
  return {
    write: async ({ left, right }) => {
      const silent = left.every(sample => sample === 0) && right.every(sample => sample === 0);
      places.push({ position: end, length: silent ? 0 : left.length });
      if (silent) return;
      const both = new Float32Array(left.length * 2);
      both.set(left);
      both.set(right, left.length);
      await file.write(new Uint8Array(both.buffer), 0, both.byteLength, end);
      end += both.byteLength;
    },
    read: async index => {
      const place = places[index];
      if (place === undefined || place.length === 0) return undefined;
      const both = new Float32Array(place.length * 2);
      await file.read(new Uint8Array(both.buffer), 0, both.byteLength, place.position);
      return { left: both.subarray(0, place.length), right: both.subarray(place.length) };
    },
    remove: async () => {
      await file.close();
      await rm(folder, { recursive: true, force: true });
    },
  };
}
