import { readSync } from 'node:fs';
import { mkdtemp, open, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/**
 * Sound that lies on disk while it is needed, so that an hour of it needs no memory. Its name is removed as soon as the file is open: so
 * nothing is left of it when the process ends, however it ends (where the system allows that; else when `remove` is called).
 */
export interface ScratchFile {
  /** Appends samples and tells where they lie. */
  readonly write: (samples: Float32Array) => Promise<Place>;
  /** Reads samples back. Throws after `remove`. */
  readonly read: (place: Place) => Float32Array;
  readonly remove: () => Promise<void>;
}

export interface Place {
  /** In bytes. */
  readonly position: number;
  /** In samples. */
  readonly length: number;
}

/** Makes a scratch file in the folder for temporary files. */
export async function openScratchFile(): Promise<ScratchFile> {
  const folder = await mkdtemp(join(tmpdir(), 'barwise-scratch-'));
  const removeFolder = (): Promise<void> => rm(folder, { recursive: true, force: true });
  const file = await open(join(folder, 'samples'), 'wx+');
  await removeFolder().catch(() => undefined);
  let end = 0;
  let isOpen = true;
  return {
    write: async samples => {
      const place = { position: end, length: samples.length };
      end += samples.byteLength;
      const bytes = new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength);
      for (let at = 0; at < bytes.length;)
        at += (await file.write(bytes, at, bytes.length - at, place.position + at)).bytesWritten;
      return place;
    },
    read: ({ position, length }) => {
      if (!isOpen) throw new Error('the scratch file was removed');
      const samples = new Float32Array(length);
      const bytes = new Uint8Array(samples.buffer);
      for (let at = 0; at < bytes.length;) {
        const count = readSync(file.fd, bytes, at, bytes.length - at, position + at);
        if (count === 0) throw new Error('the scratch file is shorter than what was written');
        at += count;
      }
      return samples;
    },
    remove: async () => {
      if (!isOpen) return;
      isOpen = false;
      await file.close();
      await removeFolder();
    },
  };
}
