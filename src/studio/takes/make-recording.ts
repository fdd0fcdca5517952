import type { Bridge, SpokenPart } from '../../bridge/index.js';
import { askUser } from '../ask-user.js';
import { toPcm16 } from './pcm.js';
import type { FreshRecording, Recorder } from './recorder.js';
import { runningTape } from './running-tape.js';
import { takeKeeper } from './take-keeper.js';

/** A recording that is among the takes now. */
export interface MadeRecording extends FreshRecording {
  readonly number: number;
}

export interface RecordingMaker {
  /** Says why a recording was not written, with a way to try again. */
  readonly element: HTMLElement;
  /** Records a text until the recorder is stopped, and has it kept; `undefined` where it was left or given up. The microphone must be open. */
  readonly make: (path: string, text: SpokenPart, withCountIn: boolean) => Promise<MadeRecording | undefined>;
  /** Whether there is a recording that has ended and is not among the takes. */
  readonly hasUnkept: () => boolean;
  /** Whether there is any recording that is not among the takes. */
  readonly isUnsaved: () => boolean;
  /** Whether the window may be left: every recording is kept, or the user does not want it. */
  readonly mayLeave: () => Promise<boolean>;
}

export interface RecordingMakerHandlers {
  /** `hasUnkept` may have changed. */
  readonly changed: () => void;
  readonly trouble: (words: string) => void;
}

/** Sees a recording through from its first sample until it is among the takes, whatever happens to the window meanwhile. */
export function recordingMaker(
  bridge: Bridge,
  recorder: Recorder,
  { changed, trouble }: RecordingMakerHandlers,
): RecordingMaker {
  const keeper = takeKeeper(bridge);
  /** Forgets what was written down of the recording that is made or not kept yet. */
  let forget: (() => Promise<void>) | undefined;
  const isRunning = (): boolean => recorder.state().kind === 'recording';

  return {
    element: keeper.element,
    hasUnkept: keeper.hasUnkept,
    isUnsaved: () => keeper.hasUnkept() || isRunning(),
    make: async (path, { id, words }, withCountIn) => {
      const sampleRate = recorder.sampleRate();
      if (sampleRate === undefined) return undefined;
      const tape = runningTape(bridge, { path, id, words, sampleRate }, { since: recorder.since, trouble });
      forget = async () => {
        tape.stop();
        await bridge.ask('dropTape', { path, tape: tape.name });
      };
      const made = await recorder.record(withCountIn);
      tape.stop();
      if (made === undefined) return undefined;
      const keeping = keeper.keep({
        path,
        id,
        words,
        pcm: toPcm16(made.blocks),
        sampleRate,
        tape: tape.name,
      });
      changed();
      const number = await keeping;
      changed();
      if (number !== undefined) return { ...made, number };
      await forget();
      return undefined;
    },
    mayLeave: async () => {
      if (!isRunning() && !keeper.hasUnkept()) return true;
      const answer = await askUser(
        isRunning() ? 'A recording is running' : 'A recording is not written yet',
        ['It is not among the takes yet.'],
        [
          ['drop', 'Drop it'],
          ['stay', 'Stay here'],
        ],
      );
      if (answer === 'drop') await forget?.();
      return answer === 'drop';
    },
  };
}
