import type { Mono } from './mono.js';

/** Reads a WAV file of 16-bit samples; several channels are averaged. Throws a RangeError for anything else. */
export function readWav(bytes: Uint8Array): Mono {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tag = (at: number) => String.fromCharCode(...bytes.subarray(at, at + 4));
  if (bytes.length < 12 || tag(0) !== 'RIFF' || tag(8) !== 'WAVE') throw new RangeError('not a WAV file');
  let [channels, sampleRate, bits] = [0, 0, 0];
  for (let at = 12; at + 8 <= bytes.length;) {
    const size = view.getUint32(at + 4, true);
    if (tag(at) === 'fmt ') {
      if (view.getUint16(at + 8, true) !== 1) throw new RangeError('not a WAV file of plain samples');
      channels = view.getUint16(at + 10, true);
      sampleRate = view.getUint32(at + 12, true);
      bits = view.getUint16(at + 22, true);
    }
    if (tag(at) === 'data') {
      if (bits !== 16 || channels < 1) throw new RangeError('not a WAV file of 16-bit samples');
      const length = Math.floor(Math.min(size, bytes.length - at - 8) / 2 / channels);
      const samples = new Float32Array(length);
      for (let frame = 0; frame < length; frame += 1) {
        let sum = 0;
        for (let channel = 0; channel < channels; channel += 1)
          sum += view.getInt16(at + 8 + 2 * (frame * channels + channel), true);
        samples[frame] = sum / channels / 32768;
      }
      return { samples, sampleRate };
    }
    at += 8 + size + (size % 2);
  }
  throw new RangeError('a WAV file without sound');
}

/** The 44 bytes in front of `frames` frames of 16-bit samples (RIFF WAVE, IBM and Microsoft 1991). */
export function wavHeader(frames: number, channels: number, sampleRate: number): Uint8Array {
  const header = new Uint8Array(44);
  const view = new DataView(header.buffer);
  const tag = (at: number, text: string) => header.set(new TextEncoder().encode(text), at);
  const dataBytes = frames * channels * 2;
  tag(0, 'RIFF');
  view.setUint32(4, 36 + dataBytes, true);
  tag(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, channels, true);
  view.setUint32(24, sampleRate, true);
  view.setUint32(28, sampleRate * channels * 2, true);
  view.setUint16(32, channels * 2, true);
  view.setUint16(34, 16, true);
  tag(36, 'data');
  view.setUint32(40, dataBytes, true);
  return header;
}

const toInt16 = (sample: number): number => Math.max(-32768, Math.min(32767, Math.round(sample * 32768)));

/** A block of sound as 16-bit samples, as they follow the header; each one stands `channels` times. */
export function wavFrames(samples: Float32Array, channels: number): Uint8Array {
  const bytes = new Uint8Array(samples.length * channels * 2);
  const view = new DataView(bytes.buffer);
  for (let frame = 0; frame < samples.length; frame += 1) {
    const value = toInt16(samples[frame] ?? 0);
    for (let channel = 0; channel < channels; channel += 1)
      view.setInt16((frame * channels + channel) * 2, value, true);
  }
  return bytes;
}
