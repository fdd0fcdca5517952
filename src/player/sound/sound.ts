import type { Paced } from '../pace.js';

/** Factors from 0 to 1. */
export interface Volume {
  readonly music: number;
  readonly speech: number;
}

/** What sounds and its clock. Times are clock seconds of what is played (see pace.ts). */
export interface Sound {
  /** Makes ready what takes time, so that the first `start` is prompt; needs no gesture. */
  readonly prepare: () => void;
  /** Seconds on the clock of what is heard right now; it only ever runs forward, and stands still while the device sleeps. */
  readonly heard: () => number;
  /**
   * Begins to sound at `from` and answers with the reading of the clock at which `from` is heard. To be called in answer to a gesture,
   * as browsers ask. Rejects with `Interrupted` where `stop` or another `start` came in between.
   */
  readonly start: (played: Paced, from: number, until: number) => Promise<number>;
  readonly stop: () => void;
  readonly setVolume: (volume: Volume) => void;
  /** Why nothing can be heard, in words for the reader; `undefined` where all is well. */
  readonly silentBecause: () => string | undefined;
}

/** The sound was no longer wanted when it was ready. */
export class Interrupted extends Error {}

/** Time without sound, for a browser that has none: the lesson still runs, with words and marks at their times. */
export function silence(reason: string, now: () => number): Sound {
  return {
    prepare: () => undefined,
    heard: now,
    start: () => Promise.resolve(now()),
    stop: () => undefined,
    setVolume: () => undefined,
    silentBecause: () => reason,
  };
}
