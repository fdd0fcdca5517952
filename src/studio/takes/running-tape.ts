import type { Bridge, Payload } from '../../bridge/index.js';
import { problemWords } from '../problem-words.js';
import { toPcm16 } from './pcm.js';

/** How often a recording is written down while it is made, in milliseconds: as much of it is lost where the window dies. */
const pause = 1000;

/** A recording while it is made, as the host has it. */
export interface RunningTape {
  readonly name: string;
  /** Writes nothing more down; what was written down stays with the host until the recording is saved or dropped. */
  readonly stop: () => void;
}

export interface RunningTapeHandlers {
  /** What was recorded from a sample on. */
  readonly since: (sample: number) => readonly Float32Array[];
  /** Once, where it cannot be written down. */
  readonly trouble: (words: string) => void;
}

/** Has a recording written down by the host, second by second, so that it outlives the window. */
export function runningTape(
  bridge: Bridge,
  label: Pick<Payload<'tape'>, 'path' | 'id' | 'words' | 'sampleRate'>,
  { since, trouble }: RunningTapeHandlers,
): RunningTape {
  const name = crypto.randomUUID().replaceAll('-', '');
  let written = 0;
  let isBusy = false;
  let isTold = false;
  const write = async (): Promise<void> => {
    const blocks = since(written);
    if (isBusy || blocks.length === 0) return;
    isBusy = true;
    const answer = await bridge
      .ask('tape', { ...label, tape: name, at: written, pcm: toPcm16(blocks) })
      .catch((error: unknown) => ({ ok: false as const, problem: { message: String(error) } }));
    isBusy = false;
    if (answer.ok) written = answer.value.samples;
    else if (!isTold) {
      isTold = true;
      trouble(problemWords(answer.problem));
    }
  };
  const timer = setInterval(() => void write(), pause);
  return {
    name,
    stop: () => {
      clearInterval(timer);
    },
  };
}
