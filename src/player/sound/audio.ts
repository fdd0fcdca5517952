import type { BasicSoundBank } from 'spessasynth_core';
import { spokenOverSpans } from '../../timeline/index.js';
import type { PageData } from '../../timeline/index.js';
import type { PageBlocks } from '../page-blocks.js';
import { instrument, loadBank, type Block, type Instrument } from './instrument.js';
import { passagesBetween } from './passages.js';
import { Interrupted, type Sound } from './sound.js';

/** Sound is made this far ahead of what is heard; enough for a page in the background, whose timers run once a second. */
const ahead = 4;
/** From the gesture to the first sound: time to fill the first blocks. */
const headStart = 0.12;
/** Under spoken words the music is this much softer: speech stands 15 to 20 dB above it (common practice). */
const duckedTo = 0.22;
/** Brings the synthesiser, which leaves room for many voices at once, to the loudness of the speech. */
const musicGain = 2.5;
const fade = 0.03;

const pause = (milliseconds: number): Promise<void> =>
  new Promise(resolve => setTimeout(resolve, milliseconds));

/**
 * What is heard now, on the context's clock: the time at the output, not at the point where sound is computed, so that marks fall
 * together with the notes even where the device buffers a lot (Web Audio API, getOutputTimestamp).
 */
function heardAt(context: AudioContext): number {
  const { contextTime = 0, performanceTime = 0 } = context.getOutputTimestamp();
  if (performanceTime > 0 && context.state === 'running') {
    const now = contextTime + (performance.now() - performanceTime) / 1000;
    return Math.min(now, context.currentTime);
  }
  return context.currentTime - (context.outputLatency || 0);
}

/** Speech and music of the page on one audio context, whose clock is the only one. */
function soundOn(
  context: AudioContext,
  data: PageData,
  blocks: PageBlocks,
  bank: Promise<BasicSoundBank>,
): Sound {
  const music = new GainNode(context, { gain: musicGain });
  const speech = new GainNode(context);
  music.connect(context.destination);
  speech.connect(context.destination);

  const programs = new Map(
    data.scores.flatMap(score => score.voices.map(({ id, program }) => [id, program] as const)),
  );
  let made: Promise<Instrument> | undefined;
  const theInstrument = (): Promise<Instrument> => {
    made ??= bank.then(loaded => instrument(loaded, context.sampleRate, programs));
    return made;
  };

  const clips = new Map<string, Promise<AudioBuffer>>();
  const clipOf = (say: string): Promise<AudioBuffer> | undefined => {
    const index = data.clips.findIndex(clip => clip.say === say);
    if (index < 0) return undefined;
    const known = clips.get(say);
    if (known !== undefined) return known;
    const decoded = blocks.bytes(`clip-${index}`).then(bytes => context.decodeAudioData(bytes));
    clips.set(say, decoded);
    return decoded;
  };

  /** One run from `start` to `stop`. */
  interface Run {
    readonly bus: { readonly music: GainNode; readonly speech: GainNode };
    stopped: boolean;
  }
  let run: Run | undefined;

  const place = (buffer: AudioBuffer, into: AudioNode, when: number, skip: number): void => {
    const source = new AudioBufferSourceNode(context, { buffer });
    source.connect(into);
    // A source that is late starts inside, so that it stays in step.
    const late = Math.max(0, context.currentTime - when);
    if (skip + late < buffer.duration) source.start(when + late, skip + late);
  };

  const blockBuffer = (block: Block): AudioBuffer => {
    const buffer = new AudioBuffer({
      length: block.left.length,
      numberOfChannels: 2,
      sampleRate: context.sampleRate,
    });
    buffer.copyToChannel(block.left, 0);
    buffer.copyToChannel(block.right, 1);
    return buffer;
  };

  /** Waits until `when` on the context's clock is near, or the run is over. */
  const near = async (here: Run, when: number): Promise<boolean> => {
    while (!here.stopped && when > context.currentTime + ahead) await pause(250);
    return !here.stopped;
  };

  const playMusic = async (here: Run, from: number, until: number, zero: number): Promise<void> => {
    const passages = passagesBetween(data.timeline, from, until);
    if (passages.length === 0) return;
    const plays = await theInstrument();
    for (const passage of passages) {
      let when = Math.round((zero + passage.start - from) * context.sampleRate) / context.sampleRate;
      if (!(await near(here, when))) return;
      for (const block of plays.render(passage)) {
        if (!(await near(here, when))) return;
        place(blockBuffer(block), here.bus.music, when, 0);
        when += block.left.length / context.sampleRate;
        await pause(0);
      }
    }
  };

  const spoken = data.timeline.events.filter(event => event.kind === 'speech');
  const playSpeech = async (here: Run, from: number, until: number, zero: number): Promise<void> => {
    for (const { say, start } of spoken.filter(event => event.start < until && event.end > from)) {
      const begin = Math.max(start, from);
      const when = zero + begin - from;
      if (!(await near(here, when))) return;
      const buffer = await clipOf(say);
      // Unpacked speech is large; what has been heard is unpacked again if it is wanted again.
      clips.delete(say);
      if (buffer === undefined) continue;
      if (here.stopped) return;
      const skip = data.clips.find(clip => clip.say === say)?.skipSeconds ?? 0;
      place(buffer, here.bus.speech, when, skip + begin - start);
    }
  };

  const duck = (here: Run, from: number, zero: number): void => {
    const { gain } = here.bus.music;
    for (const { start, end } of spokenOverSpans(data.timeline)) {
      if (end <= from) continue;
      gain.setTargetAtTime(duckedTo, Math.max(0, zero + start - from - 0.15), 0.06);
      gain.setTargetAtTime(1, Math.max(0, zero + end - from + 0.1), 0.12);
    }
  };

  return {
    heard: () => heardAt(context),
    start: async (from, until) => {
      run?.bus.music.disconnect();
      const here: Run = {
        bus: { music: new GainNode(context), speech: new GainNode(context) },
        stopped: false,
      };
      if (run !== undefined) run.stopped = true;
      run = here;
      here.bus.music.connect(music);
      here.bus.speech.connect(speech);
      await context.resume();
      const first = spoken.find(event => event.start <= from + 0.5 && event.end > from);
      await Promise.all([theInstrument(), first === undefined ? undefined : clipOf(first.say)]);
      if (here.stopped) throw new Interrupted();
      const zero = context.currentTime + headStart;
      duck(here, from, zero);
      void playMusic(here, from, until, zero);
      void playSpeech(here, from, until, zero);
      return zero;
    },
    stop: () => {
      if (run === undefined) return;
      const over = run;
      over.stopped = true;
      run = undefined;
      for (const { gain } of [over.bus.music, over.bus.speech]) {
        gain.cancelScheduledValues(context.currentTime);
        gain.setTargetAtTime(0, context.currentTime, fade / 3);
      }
      setTimeout(() => {
        over.bus.music.disconnect();
        over.bus.speech.disconnect();
      }, fade * 4000);
    },
    setVolume: volume => {
      music.gain.setTargetAtTime(volume.music * musicGain, context.currentTime, fade);
      speech.gain.setTargetAtTime(volume.speech, context.currentTime, fade);
    },
  };
}

/**
 * The page's sound. The bank is read right away, the audio context made at the first `start`: browsers want a gesture before it, and
 * nothing sounds by itself.
 */
export function audio(data: PageData, blocks: PageBlocks): Sound {
  const bank = blocks.bytes('bank').then(bytes => loadBank(bytes, () => pause(0)));
  let sound: Sound | undefined;
  let volume = { music: 1, speech: 1 };
  return {
    heard: () => sound?.heard() ?? 0,
    start: (from, until) => {
      if (sound === undefined) {
        sound = soundOn(new AudioContext(), data, blocks, bank);
        sound.setVolume(volume);
      }
      return sound.start(from, until);
    },
    stop: () => sound?.stop(),
    setVolume: next => {
      volume = next;
      sound?.setVolume(next);
    },
  };
}
