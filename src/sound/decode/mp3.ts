import { MPEGDecoder } from 'mpg123-decoder';
import type { Mono } from '../mono.js';

/**
 * Reads an MP3 file; its channels are averaged. Throws a RangeError for a file without sound and for one that is damaged inside; one that
 * is cut off ends where it ends.
 */
export async function readMp3(bytes: Uint8Array): Promise<Mono> {
  const decoder = new MPEGDecoder();
  await decoder.ready;
  // It prints what is wrong, and tells it too.
  const { error } = console;
  console.error = () => undefined;
  try {
    const { channelData, samplesDecoded, sampleRate, errors } = decoder.decode(bytes);
    if (errors.length > 0) throw new RangeError('the MP3 file is damaged');
    if (samplesDecoded === 0) throw new RangeError('an MP3 file without sound');
    const samples = new Float32Array(samplesDecoded);
    for (const channel of channelData)
      for (let i = 0; i < samplesDecoded; i += 1)
        samples[i] = (samples[i] ?? 0) + (channel[i] ?? 0) / channelData.length;
    return { samples, sampleRate };
  } finally {
    console.error = error;
    decoder.free();
  }
}
