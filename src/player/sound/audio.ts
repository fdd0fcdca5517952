import type { BasicSoundBank } from 'spessasynth_core';
import { spokenOverSpans } from '../../timeline/index.js';
import type { PageData } from '../../timeline/index.js';
import type { PageBlocks } from '../page-blocks.js';
import type { Paced } from '../pace.js';
import { instrument, loadBank, type Instrument } from './instrument.js';
import { musicLevel, planLowering, softCeiling, speechLevel } from './levels.js';
import { streamMusic } from './music-stream.js';
import { pause, type Run } from './run.js';
import { Interrupted, silence, type Sound, type Volume } from './sound.js';
import { speechStream } from './speech-stream.js';

/** From the gesture to the first sound, in seconds: time to fill the first blocks. */
const headStart = 0.12;
/** A stop is a short fade, in seconds. */
const fade = 0.03;
/** How long a device may take to begin, in milliseconds. */
const deviceWait = 5000;

type Device = Pick<Sound, 'heard' | 'start' | 'stop' | 'setVolume'> & Partial<Pick<Sound, 'silentBecause'>>;

const wallClock = (): number => performance.now() / 1000;

/**
 * What is heard now, on the context's clock: the time at the output, not at the point where sound is computed, so that marks fall
 * together with the notes even where the device buffers a lot (Web Audio API 1.1, getOutputTimestamp).
 */
function heardAt(context: AudioContext): number {
  const { contextTime = 0, performanceTime = 0 } = context.getOutputTimestamp();
  if (performanceTime > 0 && context.state === 'running') {
    const now = contextTime + (performance.now() - performanceTime) / 1000;
    return Math.min(now, context.currentTime);
  }
  return context.currentTime - (context.outputLatency || 0);
}

/** Speech and music on one audio context, whose clock is the only one. */
function soundOn(
  context: AudioContext,
  data: PageData,
  blocks: PageBlocks,
  bank: Promise<BasicSoundBank>,
): Device {
  const music = new GainNode(context, { gain: musicLevel });
  const speech = new GainNode(context, { gain: speechLevel });
  const ceiling = new WaveShaperNode(context, { curve: softCeiling() });
  music
    .connect(new GainNode(context, { gain: 0.5 }))
    .connect(ceiling)
    .connect(context.destination);
  speech.connect(context.destination);

  const programs = new Map(
    data.scores.flatMap(score => score.voices.map(({ id, program }) => [id, program] as const)),
  );
  let made: Promise<Instrument> | undefined;
  const theInstrument = (): Promise<Instrument> => {
    made ??= bank.then(loaded => instrument(loaded, context.sampleRate, programs));
    return made;
  };
  const spoken = speechStream(data, blocks, context);
  /** Each start and stop begins a new count; what belongs to an older one is over. */
  let count = 0;
  let current: Run | undefined;

  const silenceCurrent = (): void => {
    count++;
    const over = current;
    current = undefined;
    if (over === undefined) return;
    for (const { gain } of [over.music, over.speech]) {
      gain.cancelScheduledValues(context.currentTime);
      gain.setTargetAtTime(0, context.currentTime, fade / 3);
    }
    setTimeout(() => {
      over.music.disconnect();
      over.speech.disconnect();
    }, fade * 4000);
  };

  const start = async (played: Paced, from: number, until: number): Promise<number> => {
    silenceCurrent();
    const mine = count;
    await running(context);
    const [plays] = await Promise.all([theInstrument(), spoken.ready(played, from)]);
    if (count !== mine) throw new Interrupted();
    const zero = context.currentTime + headStart;
    const run: Run = {
      context,
      music: new GainNode(context),
      speech: new GainNode(context),
      from,
      zero,
      until,
      isOver: () => count !== mine,
    };
    current = run;
    run.music.connect(music);
    run.speech.connect(speech);
    const inContext = (second: number): number => zero + second - from;
    planLowering(
      run.music.gain,
      spokenOverSpans(played.timeline).map(span => ({
        start: inContext(span.start),
        end: inContext(span.end),
      })),
      context.currentTime,
    );
    void streamMusic(run, played.timeline, plays);
    void spoken.stream(run, played);
    return zero;
  };

  return {
    heard: () => heardAt(context),
    start,
    stop: silenceCurrent,
    setVolume: volume => {
      music.gain.setTargetAtTime(volume.music * musicLevel, context.currentTime, fade);
      speech.gain.setTargetAtTime(volume.speech * speechLevel, context.currentTime, fade);
    },
  };
}

/** Resumes the context. A device that does not answer is told from one that is slow by waiting. */
async function running(context: AudioContext): Promise<void> {
  const answered = await Promise.race([
    context.resume().then(() => true),
    pause(deviceWait).then(() => false),
  ]);
  if (!answered) throw new Error('the sound device does not answer');
}

/**
 * The page's sound. The bank is read by `prepare`, the audio context made at the first `start`: browsers want a gesture before it, and
 * nothing sounds by itself. Where the device cannot be had, time goes on without sound and `silentBecause` says why.
 */
export function audio(data: PageData, blocks: PageBlocks): Sound {
  let loading: Promise<BasicSoundBank> | undefined;
  const bank = (): Promise<BasicSoundBank> => {
    loading ??= blocks.bytes('bank').then(bytes => loadBank(bytes, () => pause(0)));
    return loading;
  };
  let sound: Device | undefined;
  let volume: Volume = { music: 1, speech: 1 };
  const without = (error: unknown): Device => {
    sound?.stop();
    const reason = error instanceof Error ? error.message : String(error);
    const silent = silence(`No sound: ${reason}. Words and marks run all the same.`, wallClock);
    sound = silent;
    return silent;
  };
  return {
    prepare: () => void bank().catch(() => undefined),
    heard: () => sound?.heard() ?? 0,
    start: async (played, from, until) => {
      try {
        if (sound === undefined) {
          sound = soundOn(new AudioContext(), data, blocks, bank());
          sound.setVolume(volume);
        }
        return await sound.start(played, from, until);
      } catch (error) {
        if (error instanceof Interrupted) throw error;
        return without(error).start(played, from, until);
      }
    },
    stop: () => sound?.stop(),
    setVolume: next => {
      volume = next;
      sound?.setVolume(next);
    },
    silentBecause: () => sound?.silentBecause?.(),
  };
}
