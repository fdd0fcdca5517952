import { createHash } from 'node:crypto';
import { registerMp3Encoder } from '@mediabunny/mp3-encoder';
import { BufferTarget, Mp3OutputFormat } from 'mediabunny';
import type { Target } from 'mediabunny';
import type { Mono } from '../mono.js';
import type { SoundCache } from '../sound-cache.js';
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

/** Encodes speech for the page, or takes it from the cache: starting the encoder is what takes longest. */
export async function speechClip(sound: Mono, cache?: SoundCache): Promise<SpeechClip> {
  const { samples, sampleRate } = sound;
  const bitrate = speechBitrate(sampleRate);
  const content = new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength);
  const hash = createHash('sha256').update(content).digest('hex');
  const key = JSON.stringify(['mp3 clip 1', hash, sampleRate, bitrate]);
  const known = await cache?.readClip(key);
  const mp3 = known ?? (await encodedClip(sound, bitrate));
  if (known === undefined) await cache?.writeClip(key, mp3);
  return { mp3, skipSeconds: mp3DelaySamples / sampleRate, seconds: samples.length / sampleRate };
}

async function encodedClip({ samples, sampleRate }: Mono, bitrate: number): Promise<Uint8Array> {
  const target = new BufferTarget();
  const encoding = await startMp3(target, sampleRate, 1, bitrate);
  await encoding.add(samples);
  await encoding.finish();
  return new Uint8Array(target.buffer ?? new ArrayBuffer(0));
}
