import { spokenOverSpans } from '../../timeline/index.js';
import type { Instrumentation, NoteEvent, SpeechEvent, Timeline } from '../../timeline/index.js';
import { pianoAlone } from '../instrument/instruments.js';
import { renderMusic } from '../instrument/render-music.js';
import { limit } from '../loudness/limiter.js';
import { hopSeconds, integratedLoudness, loudnessMeter } from '../loudness/loudness-meter.js';
import { fileChannels, mixRate } from '../mono.js';
import type { Mono } from '../mono.js';
import type { SoundCache } from '../sound-cache.js';
import { duckEnvelope } from './duck-envelope.js';
import { resample } from './resample.js';
import { createStemFile } from './stem-file.js';
import type { StemFile } from './stem-file.js';

/** Speech of one text as it is mixed. */
export interface MixSpeech extends Mono {
  /** True for a recording: it is brought to the common level on its own, since recordings differ. */
  readonly recorded?: boolean;
}

export interface MixOptions {
  readonly instrumentation?: Instrumentation;
  /** Keeps the music of each passage. */
  readonly cache?: SoundCache;
  /** Integrated loudness in LUFS: -16 for listening on the web (EBU R 128 s2: -16 to -20), -23 for broadcast (EBU R 128). */
  readonly loudness?: number;
  /** Greatest true peak in dBTP (EBU R 128: -1). */
  readonly peak?: number;
  /** How far music is lowered under words, in dB: 20 (WCAG 2.2, success criterion 1.4.7). */
  readonly lowering?: number;
}

/** Integrated loudness of a mix where nothing else is asked for, in LUFS: listening on the web (EBU R 128 s2: -16 to -20). */
export const defaultLoudness = -16;

/** The level to which music and words are brought before the whole is; any value would do. */
const reference = -23;
const factor = (decibels: number): number => 10 ** (decibels / 20);

/**
 * Mixes a lesson: music and words equally loud (each measured on its own), music lowered where words are spoken over it, the whole
 * brought to the wanted loudness and kept under the wanted true peak. The result is as long as the timeline and in step with it, block
 * by block; the music lies on disk meanwhile. Same input, same samples.
 */
export async function* mixLesson(
  timeline: Timeline,
  speech: ReadonlyMap<string, MixSpeech>,
  options: MixOptions = {},
): AsyncGenerator<Float32Array> {
  const music = await createStemFile();
  try {
    const musicEnergies = await renderStem(timeline, options, music);
    const words = timeline.events
      .filter(event => event.kind === 'speech')
      .filter(event => speech.has(event.say));
    const limited = (gains: Gains): AsyncGenerator<Float32Array> =>
      limit(mixed(timeline, music, words, speech, gains), factor(options.peak ?? -1), mixRate);
    const planned = levels(timeline, musicEnergies, words, speech, options);
    // The limiter takes some loudness away, so the mix is made once to hear how much, and once for good.
    const heard = await loudnessOf(limited(planned));
    const lacking = Number.isFinite(heard) ? (options.loudness ?? defaultLoudness) - heard : 0;
    yield* limited(louder(planned, lacking));
  } finally {
    await music.remove();
  }
}

async function renderStem(
  timeline: Timeline,
  { instrumentation = pianoAlone, cache }: MixOptions,
  stem: StemFile,
): Promise<readonly number[]> {
  const notes = timeline.events.filter((event): event is NoteEvent => event.kind === 'note');
  const meter = loudnessMeter(mixRate, [fileChannels]);
  const music = renderMusic(notes, {
    seconds: timeline.seconds,
    instrumentation,
    ...(cache === undefined ? {} : { cache }),
  });
  for await (const block of music) {
    meter.add([block]);
    await stem.write(block);
  }
  return meter.energies();
}

interface Gains {
  readonly music: number;
  /** Lowered music against music. */
  readonly lowered: number;
  readonly words: ReadonlyMap<string, number>;
}

const louder = ({ music, lowered, words }: Gains, decibels: number): Gains => ({
  music: music * factor(decibels),
  lowered,
  words: new Map([...words].map(([say, gain]) => [say, gain * factor(decibels)])),
});

async function loudnessOf(blocks: AsyncIterable<Float32Array>): Promise<number> {
  const meter = loudnessMeter(mixRate, [fileChannels]);
  for await (const block of blocks) meter.add([block]);
  return integratedLoudness(meter.energies());
}

/** Gains of music and words: both to the reference, then both by what the whole lacks to the wanted loudness. */
function levels(
  timeline: Timeline,
  musicEnergies: readonly number[],
  words: readonly SpeechEvent[],
  speech: ReadonlyMap<string, MixSpeech>,
  options: MixOptions,
): Gains {
  const energiesOf = new Map(words.map(({ say }) => [say, speechEnergies(speech.get(say))]));
  const spoken = [...energiesOf]
    .filter(([say]) => speech.get(say)?.recorded !== true)
    .flatMap(([, energies]) => energies);
  const toReference = (energies: readonly number[]): number | undefined => {
    const loudness = integratedLoudness(energies);
    return Number.isFinite(loudness) ? factor(reference - loudness) : undefined;
  };
  const ofVoice = toReference(spoken) ?? 1;
  const wordGains = new Map(
    [...energiesOf].map(([say, energies]) => [
      say,
      speech.get(say)?.recorded === true ? (toReference(energies) ?? 1) : ofVoice,
    ]),
  );
  const music = toReference(musicEnergies) ?? 1;
  const lowered = factor(-(options.lowering ?? 20));

  const envelope = duckEnvelope(spokenOverSpans(timeline));
  const together = musicEnergies.map((energy, hop) => {
    const duck = envelope((hop + 0.5) * hopSeconds);
    return energy * (music * (1 + (lowered - 1) * duck)) ** 2;
  });
  for (const event of words) {
    const first = Math.round(event.start / hopSeconds);
    const gain = wordGains.get(event.say) ?? 1;
    energiesOf.get(event.say)?.forEach((energy, hop) => {
      together[first + hop] = (together[first + hop] ?? 0) + energy * gain ** 2;
    });
  }
  const whole = integratedLoudness(together);
  const final = Number.isFinite(whole) ? factor((options.loudness ?? defaultLoudness) - whole) : 1;
  return {
    music: music * final,
    lowered,
    words: new Map([...wordGains].map(([say, gain]) => [say, gain * final])),
  };
}

/** Energies of speech as it will sound from both channels. */
function speechEnergies(sound: MixSpeech | undefined): readonly number[] {
  if (sound === undefined) return [];
  const meter = loudnessMeter(sound.sampleRate, [fileChannels]);
  meter.add([sound.samples]);
  return meter.energies();
}

async function* mixed(
  timeline: Timeline,
  music: StemFile,
  words: readonly SpeechEvent[],
  speech: ReadonlyMap<string, MixSpeech>,
  gains: Gains,
): AsyncGenerator<Float32Array> {
  const total = Math.round(timeline.seconds * mixRate);
  const blockLength = 4800;
  const envelope = duckEnvelope(spokenOverSpans(timeline));
  const waiting = [...words];
  let sounding: { readonly from: number; readonly samples: Float32Array; readonly gain: number }[] = [];
  for (let at = 0, index = 0; at < total; at += blockLength, index += 1) {
    const length = Math.min(blockLength, total - at);
    const block = new Float32Array(length);
    const stem = music.read(index);
    if (stem !== undefined) {
      // The envelope moves slowly: it is read at both ends of the block and runs straight between them.
      const gainAt = (sample: number) => gains.music * (1 + (gains.lowered - 1) * envelope(sample / mixRate));
      const from = gainAt(at);
      const step = (gainAt(at + length) - from) / length;
      for (let i = 0; i < length; i += 1) block[i] = (stem[i] ?? 0) * (from + step * i);
    }
    for (
      let next = waiting[0];
      next !== undefined && Math.round(next.start * mixRate) < at + length;
      next = waiting[0]
    ) {
      waiting.shift();
      const sound = speech.get(next.say);
      if (sound === undefined) continue;
      sounding.push({
        from: Math.round(next.start * mixRate),
        samples: await resample(sound, mixRate),
        gain: gains.words.get(next.say) ?? 1,
      });
    }
    for (const { from, samples, gain } of sounding) {
      const last = Math.min(length, from + samples.length - at);
      for (let i = Math.max(0, from - at); i < last; i += 1) {
        block[i] = (block[i] ?? 0) + (samples[at + i - from] ?? 0) * gain;
      }
    }
    sounding = sounding.filter(({ from, samples }) => from + samples.length > at + length);
    yield block;
  }
}
