import { wavHeader } from '../../src/sound/index.js';

/** Samples of a tone between two silences as whole numbers of 16 bits, low byte first; lengths in seconds. */
export function tone(seconds: number, silence = 0, sampleRate = 16_000): Uint8Array<ArrayBuffer> {
  const [before, length] = [Math.round(silence * sampleRate), Math.round(seconds * sampleRate)];
  const bytes = Buffer.alloc((length + 2 * before) * 2);
  for (let frame = 0; frame < length; frame += 1)
    bytes.writeInt16LE(Math.round(9000 * Math.sin(frame / 6)), (before + frame) * 2);
  return new Uint8Array(bytes);
}

/** The same as a WAV file. */
export function toneWav(seconds: number, silence = 0, sampleRate = 16_000): Buffer {
  const pcm = tone(seconds, silence, sampleRate);
  return Buffer.concat([wavHeader(pcm.length / 2, 1, sampleRate), pcm]);
}
