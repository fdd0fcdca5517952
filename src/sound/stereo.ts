/** A stretch of sound, two channels of equal length, full scale 1. */
export interface Stereo {
  readonly left: Float32Array;
  readonly right: Float32Array;
}

/** One channel of sound. */
export interface Mono {
  readonly samples: Float32Array;
  readonly sampleRate: number;
}

/** Sample rate of everything that is mixed. */
export const mixRate = 48_000;

/** Joins blocks of sound end to end; for short stretches, since the whole is held in memory. */
export function joinStereo(blocks: Iterable<Stereo>): Stereo {
  const all = [...blocks];
  const length = all.reduce((sum, block) => sum + block.left.length, 0);
  const joined = { left: new Float32Array(length), right: new Float32Array(length) };
  let at = 0;
  for (const block of all) {
    joined.left.set(block.left, at);
    joined.right.set(block.right, at);
    at += block.left.length;
  }
  return joined;
}
