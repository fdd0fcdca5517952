import { loadFlite } from './flite.js';
import type { Flite } from './flite.js';
import { voiceLexicon, voiceWord } from './lexicon.js';
import { alignWords, readPhoneTimes } from './phones.js';
import type { Sentence } from './sentences.js';
import { sentenceText } from './sentences.js';
import type { SentenceSound, Voice } from './voice.js';

/** Words a minute of the voice at its own pace, short pauses included: measured over the narration of the sample lessons. */
const ownPace = 185;
/** A voice that is stretched further is hard to follow. */
const [fastest, slowest] = [0.6, 2.2];
/** Silence that is left around a sentence, in seconds. */
const margin = 0.03;

/** The embedded voice: works offline, gives the same sound each time. The program is loaded when the first sentence is spoken. */
export function embeddedVoice(): Voice {
  let loaded: Promise<Flite> | undefined;
  const phonesOfWord = new Map<string, readonly string[]>();
  const flite = (): Promise<Flite> => (loaded ??= loadFlite());

  /** Phones of words on their own, in one run for all that are not known yet; another voice of the same dictionary is quicker. */
  async function learn(words: readonly string[]): Promise<void> {
    const unknown = [...new Set(words)].filter(word => !phonesOfWord.has(word));
    if (unknown.length === 0) return;
    const text = unknown.map(word => `${word}.\n\n`).join('');
    const program = await flite();
    const { printed } = await program.run({
      voice: 'kal',
      text,
      lexicon: voiceLexicon,
      stretch: 0.1,
      print: 'phones',
      sound: false,
    });
    const lines = printed.split('\n').filter(line => line.trim() !== '');
    unknown.forEach((word, index) => phonesOfWord.set(word, (lines[index] ?? '').trim().split(/\s+/u)));
  }

  async function speakSentence(sentence: Sentence, pace: number): Promise<SentenceSound> {
    const words = sentence.pieces.map(piece => piece.words.filter(word => word !== ',').map(voiceWord));
    await learn(words.flat());
    const stretch = Math.min(slowest, Math.max(fastest, ownPace / pace));
    const program = await flite();
    const text = sentenceText(sentence, voiceWord);
    const { printed, sound } = await program.run({
      voice: 'slt',
      text,
      lexicon: voiceLexicon,
      stretch,
      print: 'times',
      sound: true,
    });
    const heard = readPhoneTimes(printed.split('\n').find(line => line.trim() !== '') ?? '');
    const times = alignWords(
      words.map(own => own.flatMap(word => phonesOfWord.get(word) ?? [])),
      heard,
    );
    const voiced = heard.filter(({ phone }) => phone !== 'pau');
    const { samples, sampleRate } = sound ?? { samples: new Float32Array(0), sampleRate: 16_000 };
    const from = Math.max(0, (voiced[0]?.start ?? 0) - margin);
    const to = Math.min(samples.length / sampleRate, (voiced.at(-1)?.end ?? 0) + margin);
    return {
      samples: samples.slice(Math.round(from * sampleRate), Math.round(to * sampleRate)),
      sampleRate,
      times: times.map(({ start, end }) => ({ start: start - from, end: end - from })),
    };
  }

  return { id: 'embedded slt 2', speakSentence };
}
