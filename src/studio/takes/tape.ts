import { joined } from './pcm.js';

/** What was recorded, and what the room sounded like just before. */
export interface Recorded {
  readonly blocks: readonly Float32Array[];
  readonly room: Float32Array;
}

/** Keeps what the microphone hears while it records, and the last moment before. */
export interface Tape {
  /** @returns whether there is room for more */
  readonly hear: (block: Float32Array) => boolean;
  readonly start: () => void;
  readonly stop: () => Recorded;
  /** What was recorded so far, from a sample on. */
  readonly since: (sample: number) => readonly Float32Array[];
  /** Length of what was recorded so far, in samples. */
  readonly length: () => number;
}

/**
 * @param roomLength samples of the moment before that are kept, about
 * @param most samples that are recorded at most; what comes after them is dropped
 */
export function tape(roomLength: number, most: number): Tape {
  let before: Float32Array[] = [];
  let room = new Float32Array();
  let blocks: Float32Array[] | undefined;
  let length = 0;
  return {
    hear: block => {
      if (blocks === undefined) {
        before.push(block);
        while (before.slice(1).reduce((sum, part) => sum + part.length, 0) >= roomLength) before.shift();
        return true;
      }
      const part = block.subarray(0, most - length);
      if (part.length > 0) blocks.push(part);
      length += part.length;
      return length < most;
    },
    start: () => {
      room = joined(before).slice(-roomLength);
      [before, blocks, length] = [[], [], 0];
    },
    stop: () => {
      const recorded = { blocks: blocks ?? [], room };
      [blocks, length] = [undefined, 0];
      return recorded;
    },
    since: sample => {
      const later: Float32Array[] = [];
      let end = length;
      for (const block of (blocks ?? []).toReversed()) {
        if (end <= sample) break;
        end -= block.length;
        later.unshift(block.subarray(Math.max(0, sample - end)));
      }
      return later;
    },
    length: () => length,
  };
}
