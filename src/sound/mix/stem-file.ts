import { openScratchFile } from '../scratch-file.js';
import type { Place } from '../scratch-file.js';

/** Sound that is kept on disk while its loudness is measured, block by block. Silent blocks take no room. */
export interface StemFile {
  readonly write: (block: Float32Array) => Promise<void>;
  /** The block that was written as number `index`; `undefined` for a silent one and beyond the end. */
  readonly read: (index: number) => Float32Array | undefined;
  readonly remove: () => Promise<void>;
}

/** Makes a stem file in the folder for temporary files. */
export async function createStemFile(): Promise<StemFile> {
  const file = await openScratchFile();
  const places: (Place | undefined)[] = [];
  return {
    write: async block => {
      const isSilent = block.every(sample => sample === 0);
      places.push(isSilent ? undefined : await file.write(block));
    },
    read: index => {
      const place = places[index];
      return place === undefined ? undefined : file.read(place);
    },
    remove: file.remove,
  };
}
