import { registerMp3Encoder } from '@mediabunny/mp3-encoder';
import { BufferTarget, Mp3OutputFormat } from 'mediabunny';
import type { Target } from 'mediabunny';
import type { Mono } from '../mono.js';
import { startEncoding } from './encoded-audio.js';
import type { AudioEncoding } from './encoded-audio.js';

/**
 * Silence that the encoder and every decoder put in front, in samples: 576 of the encoder and 529 of the decoder. Measured in Chromium:
 * `decodeAudioData` keeps it, at any sample rate, with and without an index frame in the file (the file carries no word about it).
 */
export const mp3DelaySamples = 1105;

let registered = false;

function register(): void {
  if (!registered) registerMp3Encoder();
  registered = true;
}

/** An MP3 file of constant bit rate. The sound in it comes `mp3DelaySamples` late. */
export function startMp3(
  target: Target,
  sampleRate: number,
  channels: number,
  bitrate: number,
): Promise<AudioEncoding> {
  register();
  return startEncoding({
    target,
    format: new Mp3OutputFormat(),
    codec: 'mp3',
    bitrate,
    sampleRate,
    channels,
    startSeconds: 0,
  });
}

/** Speech as a small MP3 for the page. */
export interface SpeechClip {
  readonly mp3: Uint8Array;
  /** Where the speech starts in the decoded sound, in seconds: the page plays from there. */
  readonly skipSeconds: number;
  /** How long the speech is; what is decoded beyond it is padding. */
  readonly seconds: number;
}

/** Bits a second for the 16 kHz of the built-in voice, and for recordings, which have more to lose. */
const speechBitrate = (sampleRate: number): number => (sampleRate <= 16_000 ? 32_000 : 64_000);

/** Encodes speech for the page. */
export async function speechClip({ samples, sampleRate }: Mono): Promise<SpeechClip> {
  const target = new BufferTarget();
  const encoding = await startMp3(target, sampleRate, 1, speechBitrate(sampleRate));
  await encoding.add(samples);
  await encoding.finish();
  return {
    mp3: new Uint8Array(target.buffer ?? new ArrayBuffer(0)),
    skipSeconds: mp3DelaySamples / sampleRate,
    seconds: samples.length / sampleRate,
  };
}
