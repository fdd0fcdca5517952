import { mostSound } from '../../bridge/index.js';
import { countIn } from './count-in.js';
import { openMicrophone } from './microphone.js';
import type { Microphone } from './microphone.js';
import { oversOf } from './overs.js';
import { tape } from './tape.js';
import type { Recorded, Tape } from './tape.js';

/** What the recorder is doing. */
export type RecorderState =
  | { readonly kind: 'closed' | 'opening' | 'ready' }
  /** Beats until it begins. */
  | { readonly kind: 'counting'; readonly left: number }
  | { readonly kind: 'recording'; readonly seconds: number; readonly isClipped: boolean };

/** A recording that has just been made. */
export interface FreshRecording extends Recorded {
  readonly sampleRate: number;
  /** Set where it was not the user who ended it. */
  readonly endedBy?: 'microphone' | 'length';
}

export interface RecorderHandlers {
  readonly state: (state: RecorderState) => void;
  /** Whatever the microphone hears, recorded or not. */
  readonly heard: (block: Float32Array, sampleRate: number) => void;
  /** The microphone has gone while nothing was recorded. */
  readonly lost: () => void;
}

export interface Recorder {
  readonly state: () => RecorderState;
  /** The microphone that is open. */
  readonly device: () => string | undefined;
  /** Opens a microphone in place of the one that is open. @throws as `openMicrophone` does */
  readonly open: (device: string | undefined) => Promise<void>;
  /** Counts in if asked to, and records until `stop`; `undefined` where it was stopped before it began. The microphone must be open. */
  readonly record: (withCountIn: boolean) => Promise<FreshRecording | undefined>;
  /** What is being recorded, from a sample on. */
  readonly since: (sample: number) => readonly Float32Array[];
  /** Samples in a second of the microphone that is open. */
  readonly sampleRate: () => number | undefined;
  readonly stop: () => void;
  readonly close: () => void;
}

/** What is kept of the moment before a recording, in seconds: enough to judge the room by. */
const roomSeconds = 1;
const bytesInSample = 2;

/** One microphone with its tape. */
export function recorder(handlers: RecorderHandlers): Recorder {
  let microphone: Microphone | undefined;
  let reel: Tape | undefined;
  let now: RecorderState = { kind: 'closed' };
  let counting: AbortController | undefined;
  let finish: ((endedBy?: FreshRecording['endedBy']) => void) | undefined;

  const become = (state: RecorderState): void => {
    now = state;
    handlers.state(state);
  };
  const heard = (block: Float32Array, { sampleRate }: Microphone, own: Tape): void => {
    const hasRoom = own.hear(block);
    handlers.heard(block, sampleRate);
    if (now.kind !== 'recording') return;
    become({
      kind: 'recording',
      seconds: own.length() / sampleRate,
      isClipped: now.isClipped || oversOf(block, sampleRate).length > 0,
    });
    if (!hasRoom) finish?.('length');
  };
  /** Lets go of the microphone; a recording that runs is ended. */
  const release = (): void => {
    counting?.abort();
    finish?.();
    microphone?.close();
    microphone = undefined;
  };
  const close = (): void => {
    release();
    if (now.kind !== 'closed') become({ kind: 'closed' });
  };

  return {
    state: () => now,
    device: () => microphone?.device,
    sampleRate: () => microphone?.sampleRate,
    since: sample => reel?.since(sample) ?? [],
    close,
    open: async device => {
      release();
      become({ kind: 'opening' });
      try {
        const opened: Microphone = await openMicrophone(device, {
          heard: block => {
            if (microphone !== undefined && reel !== undefined) heard(block, microphone, reel);
          },
          lost: () => {
            const wasRecording = now.kind === 'recording';
            finish?.('microphone');
            close();
            if (!wasRecording) handlers.lost();
          },
        });
        reel = tape(roomSeconds * opened.sampleRate, Math.floor(mostSound / bytesInSample));
        microphone = opened;
        become({ kind: 'ready' });
      } catch (error) {
        become({ kind: 'closed' });
        throw error;
      }
    },
    record: async withCountIn => {
      const [source, own] = [microphone, reel];
      if (source === undefined || own === undefined || now.kind !== 'ready') return undefined;
      if (withCountIn) {
        counting = new AbortController();
        const isTime = await countIn(
          source.context,
          left => {
            if (left > 0) become({ kind: 'counting', left });
          },
          counting.signal,
        );
        counting = undefined;
        if (!isTime) {
          if (microphone === source) become({ kind: 'ready' });
          return undefined;
        }
      }
      own.start();
      become({ kind: 'recording', seconds: 0, isClipped: false });
      return new Promise(resolve => {
        finish = endedBy => {
          finish = undefined;
          const recorded = own.stop();
          become({ kind: 'ready' });
          resolve({
            ...recorded,
            sampleRate: source.sampleRate,
            ...(endedBy === undefined ? {} : { endedBy }),
          });
        };
      });
    },
    stop: () => {
      counting?.abort();
      finish?.();
    },
  };
}
