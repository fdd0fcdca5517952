import type { PageData, SpeechEvent, Timeline } from '../../timeline/index.js';
import type { PageBlocks } from '../page-blocks.js';
import type { Paced } from '../pace.js';
import { isNear, pause, playAt, type Run } from './run.js';
import { stretched } from './stretch.js';

export interface SpeechStream {
  /** Unpacks what is spoken at `from`, so that it can begin there at once. */
  readonly ready: (played: Paced, from: number) => Promise<void>;
  readonly stream: (run: Run, played: Paced) => Promise<void>;
}

const spokenIn = (timeline: Timeline): readonly SpeechEvent[] =>
  timeline.events.filter(event => event.kind === 'speech');

async function atLength(clip: AudioBuffer, factor: number): Promise<AudioBuffer> {
  if (factor === 1) return clip;
  const work = stretched(clip.getChannelData(0), clip.sampleRate, factor);
  let made = work.next();
  while (made.done !== true) {
    await pause(0);
    made = work.next();
  }
  const buffer = new AudioBuffer({ length: Math.max(1, made.value.length), sampleRate: clip.sampleRate });
  buffer.copyToChannel(made.value, 0);
  return buffer;
}

/** The recorded speech of the lesson. Clips are unpacked shortly before they are heard and forgotten after: unpacked, they are large. */
export function speechStream(data: PageData, blocks: PageBlocks, context: AudioContext): SpeechStream {
  const unpacked = new Map<string, Promise<AudioBuffer>>();

  const clipOf = (say: string, factor: number): Promise<AudioBuffer> | undefined => {
    const index = data.clips.findIndex(clip => clip.say === say);
    if (index < 0) return undefined;
    const name = `${factor} ${say}`;
    const known = unpacked.get(name);
    if (known !== undefined) return known;
    const clip = blocks
      .bytes(`clip-${index}`)
      .then(bytes => context.decodeAudioData(bytes))
      .then(buffer => atLength(buffer, factor));
    unpacked.set(name, clip);
    return clip;
  };

  return {
    ready: async ({ timeline, pace }, from) => {
      const first = spokenIn(timeline).find(({ start, end }) => start <= from + 0.5 && end > from);
      if (first !== undefined) await clipOf(first.say, 1 / pace.speech);
    },
    stream: async (run, { timeline, pace }) => {
      const factor = 1 / pace.speech;
      for (const { say, start } of spokenIn(timeline).filter(
        event => event.start < run.until && event.end > run.from,
      )) {
        const begin = Math.max(start, run.from);
        const when = run.zero + begin - run.from;
        if (!(await isNear(run, when))) return;
        const clip = await clipOf(say, factor);
        unpacked.delete(`${factor} ${say}`);
        if (run.isOver()) return;
        const skip = (data.clips.find(one => one.say === say)?.skipSeconds ?? 0) * factor;
        if (clip !== undefined) playAt(run, clip, run.speech, when, skip + begin - start);
      }
    },
  };
}
