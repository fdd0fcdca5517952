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

/** An AAC sound in an MP4 file, in step with the timeline. Its dates are those of its making: see `clearMp4Dates`. */
export function startM4a(
  target: Target,
  sampleRate: number,
  channels: number,
  bitrate: number,
): Promise<AudioEncoding> {
  register();
  return startEncoding({
    target,
    format: new Mp4OutputFormat({ fastStart: 'in-memory' }),
    codec: 'aac',
    bitrate,
    sampleRate,
    channels,
    startSeconds: -aacDelaySamples / sampleRate,
  });
}
