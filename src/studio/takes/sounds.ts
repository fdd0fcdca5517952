import type { Answers, Bridge, Cut, Problem } from '../../bridge/index.js';

/** A recording, ready to be seen and heard. */
export interface Sound {
  readonly buffer: AudioBuffer;
  readonly samples: Float32Array;
  /** Where the speech begins and ends, as the host finds it. */
  readonly ends: Cut;
}

/** Recordings that are kept at hand; the one that was asked for longest ago makes room. */
const mostSounds = 12;
/** That of the mix. */
const sampleRate = 48_000;

/** Fetches recordings of a lesson from the host. */
export interface Sounds {
  readonly fetch: (path: string, id: string, recording: number) => Promise<Sound | Problem>;
  /** Recordings have other ids now. */
  readonly forget: () => void;
}

export const isProblem = (found: Sound | Problem): found is Problem => 'message' in found;

export function soundsOf(bridge: Bridge): Sounds {
  const known = new Map<string, Sound>();
  const decoded = async ({ sound, ends }: Answers['readTake']): Promise<Sound | Problem> => {
    try {
      // Decoding takes the bytes away, so it gets its own.
      const buffer = await new OfflineAudioContext(1, 1, sampleRate).decodeAudioData(sound.slice().buffer);
      return { buffer, ends, samples: buffer.getChannelData(0) };
    } catch {
      return { message: 'the recording cannot be read' };
    }
  };
  return {
    forget: () => {
      known.clear();
    },
    fetch: async (path, id, recording) => {
      const key = JSON.stringify([path, id, recording]);
      const before = known.get(key);
      if (before !== undefined) return before;
      const answer = await bridge.ask('readTake', { path, id, recording });
      if (!answer.ok) return answer.problem;
      const sound = await decoded(answer.value);
      // A recording never changes; a file of another program may.
      if (recording > 0 && !isProblem(sound)) known.set(key, sound);
      for (const oldest of known.keys()) if (known.size > mostSounds) known.delete(oldest);
      return sound;
    },
  };
}
