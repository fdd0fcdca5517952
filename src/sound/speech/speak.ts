import type { Speech } from '../../timeline/index.js';
import type { Doubt, SpellingOptions } from './reading.js';
import { sentencesOf, sentenceText } from './sentences.js';
import type { Sentence } from './sentences.js';
import { asKept } from '../sound-cache.js';
import type { SoundCache } from '../sound-cache.js';
import { spell } from './spell.js';
import type { SentenceSound, Voice } from './voice.js';

export interface SpeakOptions extends SpellingOptions {
  readonly voice: Voice;
  /** Words a minute. */
  readonly pace: number;
  readonly cache?: SoundCache;
}

/** Speech of one text: sound, length and word times, and what could have been read in another way. */
export interface SpokenSound extends Speech {
  readonly samples: Float32Array;
  readonly sampleRate: number;
  readonly doubts: readonly Doubt[];
  /** True for a recording of the educator's. */
  readonly recorded?: boolean;
}

/** Silence between sentences and between paragraphs at 150 words a minute, in seconds; common practice of narration. */
export const silenceAfter: Readonly<Record<Sentence['end'], number>> = {
  sentence: 0.35,
  question: 0.45,
  paragraph: 0.7,
};

/** The key of a sentence in the cache: all that decides how it sounds. */
const keyOf = (sentence: Sentence, voice: Voice, pace: number): string =>
  JSON.stringify([voice.id, pace, sentence.end, sentenceText(sentence, word => word)]);

/**
 * Speaks a shown text: spells it, speaks it sentence by sentence (each one cached by its content) and joins the sentences. The words
 * of the result are the shown words with their offsets; a word that is read as several spoken ones lasts as long as all of them.
 */
export async function speak(text: string, options: SpeakOptions): Promise<SpokenSound> {
  const { voice, pace, cache } = options;
  const { pieces, doubts } = spell(text, options);
  const sentences = sentencesOf(pieces);
  const sounds: SentenceSound[] = [];
  for (const sentence of sentences) {
    const key = keyOf(sentence, voice, pace);
    const known = await cache?.read(key);
    const sound = known ?? asKept(await voice.speakSentence(sentence, pace));
    if (known === undefined) await cache?.write(key, sound);
    sounds.push(sound);
  }
  const sampleRate = sounds[0]?.sampleRate ?? 16_000;
  const words: Speech['words'][number][] = [];
  const parts: { readonly at: number; readonly samples: Float32Array }[] = [];
  let at = 0;
  sentences.forEach((sentence, index) => {
    const sound = sounds[index];
    if (sound === undefined) return;
    parts.push({ at, samples: sound.samples });
    const offset = at / sampleRate;
    sentence.pieces.forEach((piece, place) => {
      const time = sound.times[place];
      if (time !== undefined)
        words.push({ from: piece.from, to: piece.to, start: offset + time.start, end: offset + time.end });
    });
    const pause = index === sentences.length - 1 ? 0 : (silenceAfter[sentence.end] * 150) / pace;
    at += sound.samples.length + Math.round(pause * sampleRate);
  });
  const samples = new Float32Array(at);
  for (const part of parts) samples.set(part.samples, part.at);
  return { samples, sampleRate, seconds: at / sampleRate, words, doubts };
}
