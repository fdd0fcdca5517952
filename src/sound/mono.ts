/**
 * One channel of sound, full scale 1. Everything inside is mono: the instruments of the bank and the voices are, and both channels of
 * the written files hold the same.
 */
export interface Mono {
  readonly samples: Float32Array;
  readonly sampleRate: number;
}

/** Sample rate of everything that is mixed. */
export const mixRate = 48_000;

/** Channels of the written files: two, so that their measured loudness is the one that is heard (BS.1770 counts a mono file once). */
export const fileChannels = 2;

/** Joins blocks of sound end to end; for short stretches, since the whole is held in memory. */
export function joinBlocks(blocks: readonly Float32Array[]): Float32Array {
  const joined = new Float32Array(blocks.reduce((sum, block) => sum + block.length, 0));
  let at = 0;
  for (const block of blocks) {
    joined.set(block, at);
    at += block.length;
  }
  return joined;
}
