import { registerAacEncoder } from '@mediabunny/aac-encoder';
import { Mp4OutputFormat } from 'mediabunny';
import type { Target } from 'mediabunny';
import { startEncoding } from './encoded-audio.js';
import type { AudioEncoding } from './encoded-audio.js';

/** Samples that the AAC encoder puts in front (one frame). The file says so, and players leave them out. */
const aacDelaySamples = 1024;

let registered = false;

function register(): void {
  if (!registered) registerAacEncoder();
  registered = true;
}

/** Packets beyond those of the sound: the delay, and what the encoder fills up at the end. */
const packetsToSpare = 8;

/**
 * An AAC sound in an MP4 file, in step with the timeline, written as it is made. Where it is known how long it is (`seconds`), what players
 * need first stands in front, else at the end. Its dates are those of its making: see `clearMp4DatesIn`.
 */
export function startM4a(
  target: Target,
  sampleRate: number,
  channels: number,
  bitrate: number,
  seconds: number | undefined,
): Promise<AudioEncoding> {
  register();
  const mostPackets =
    seconds === undefined ? undefined : Math.ceil((seconds * sampleRate) / aacDelaySamples) + packetsToSpare;
  return startEncoding({
    target,
    format: new Mp4OutputFormat({ fastStart: mostPackets === undefined ? false : 'reserve' }),
    codec: 'aac',
    bitrate,
    sampleRate,
    channels,
    startSeconds: -aacDelaySamples / sampleRate,
    ...(mostPackets === undefined ? {} : { mostPackets }),
  });
}
