import type { PageData } from '../../timeline/index.js';
import type { PageBlocks } from '../page-blocks.js';
import { isNear, playAt, type Run } from './run.js';

export interface SpeechStream {
  /** Unpacks what is spoken at `from`, so that it can begin there at once. */
  readonly ready: (from: number) => Promise<void>;
  readonly stream: (run: Run) => Promise<void>;
}

/** The recorded speech of the lesson. Clips are unpacked shortly before they are heard and forgotten after: unpacked, they are large. */
export function speechStream(data: PageData, blocks: PageBlocks, context: AudioContext): SpeechStream {
  const spoken = data.timeline.events.filter(event => event.kind === 'speech');
  const unpacked = new Map<string, Promise<AudioBuffer>>();

  const clipOf = (say: string): Promise<AudioBuffer> | undefined => {
    const index = data.clips.findIndex(clip => clip.say === say);
    if (index < 0) return undefined;
    const known = unpacked.get(say);
    if (known !== undefined) return known;
    const clip = blocks.bytes(`clip-${index}`).then(bytes => context.decodeAudioData(bytes));
    unpacked.set(say, clip);
    return clip;
  };

  return {
    ready: async from => {
      const first = spoken.find(({ start, end }) => start <= from + 0.5 && end > from);
      if (first !== undefined) await clipOf(first.say);
    },
    stream: async run => {
      for (const { say, start } of spoken.filter(event => event.start < run.until && event.end > run.from)) {
        const begin = Math.max(start, run.from);
        const when = run.zero + begin - run.from;
        if (!(await isNear(run, when))) return;
        const clip = await clipOf(say);
        unpacked.delete(say);
        if (run.isOver()) return;
        const skip = data.clips.find(one => one.say === say)?.skipSeconds ?? 0;
        if (clip !== undefined) playAt(run, clip, run.speech, when, skip + begin - start);
      }
    },
  };
}
