import type { Mono } from './mono.js';

/** Encodings of samples in a WAV file: whole numbers, floating point, and the tag that says "look in the extension". */
const encodings = { integer: 1, float: 3, extensible: 0xfffe } as const;

interface WavFormat {
  readonly encoding: number;
  readonly channels: number;
  readonly sampleRate: number;
  readonly bytesPerSample: number;
}

/** Reads one sample as a number from -1 to 1; `undefined` for an encoding that is not read. */
function sampleReader({
  encoding,
  bytesPerSample,
}: WavFormat): ((view: DataView, at: number) => number) | undefined {
  if (encoding === encodings.float) {
    if (bytesPerSample === 4) return (view, at) => view.getFloat32(at, true);
    if (bytesPerSample === 8) return (view, at) => view.getFloat64(at, true);
    return undefined;
  }
  if (encoding !== encodings.integer) return undefined;
  switch (bytesPerSample) {
    case 1:
      return (view, at) => (view.getUint8(at) - 128) / 128;
    case 2:
      return (view, at) => view.getInt16(at, true) / 32_768;
    case 3:
      return (view, at) => (view.getUint16(at, true) + view.getInt8(at + 2) * 65_536) / 8_388_608;
    case 4:
      return (view, at) => view.getInt32(at, true) / 2_147_483_648;
    default:
      return undefined;
  }
}

/**
 * Reads a WAV file of whole numbers (8 to 32 bits) or floating point; several channels are averaged. A `data` chunk that claims more than
 * there is (as programs write that do not know the length) ends with the file. Throws a RangeError for anything else.
 */
export function readWav(bytes: Uint8Array): Mono {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tag = (at: number) => String.fromCharCode(...bytes.subarray(at, at + 4));
  if (bytes.length < 12 || tag(0) !== 'RIFF' || tag(8) !== 'WAVE') throw new RangeError('not a WAV file');
  let format: WavFormat | undefined;
  for (let at = 12; at + 8 <= bytes.length;) {
    const size = view.getUint32(at + 4, true);
    const body = at + 8;
    if (tag(at) === 'fmt ' && size >= 16 && body + size <= bytes.length) {
      const written = view.getUint16(body, true);
      format = {
        encoding: written === encodings.extensible && size >= 26 ? view.getUint16(body + 24, true) : written,
        channels: view.getUint16(body + 2, true),
        sampleRate: view.getUint32(body + 4, true),
        bytesPerSample: view.getUint16(body + 14, true) / 8,
      };
    }
    if (tag(at) === 'data') {
      const read = format === undefined ? undefined : sampleReader(format);
      if (format === undefined || read === undefined || format.channels < 1 || format.sampleRate < 1) {
        throw new RangeError('a WAV file in an encoding that is not read');
      }
      return {
        samples: averaged(view, body, Math.min(size, bytes.length - body), format, read),
        sampleRate: format.sampleRate,
      };
    }
    at = body + size + (size % 2);
  }
  throw new RangeError('a WAV file without sound');
}

function averaged(
  view: DataView,
  from: number,
  size: number,
  format: WavFormat,
  read: (view: DataView, at: number) => number,
): Float32Array {
  const { channels, bytesPerSample } = format;
  const samples = new Float32Array(Math.floor(size / bytesPerSample / channels));
  for (let frame = 0; frame < samples.length; frame += 1) {
    let sum = 0;
    for (let channel = 0; channel < channels; channel += 1)
      sum += read(view, from + bytesPerSample * (frame * channels + channel));
    samples[frame] = sum / channels;
  }
  return samples;
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

/** A whole WAV file of one channel. */
export const wavFile = ({ samples, sampleRate }: Mono): Uint8Array =>
  Buffer.concat([wavHeader(samples.length, 1, sampleRate), wavFrames(samples, 1)]);
