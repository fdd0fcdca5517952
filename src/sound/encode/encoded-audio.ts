import { AudioSample, AudioSampleSource, BufferTarget, Output } from 'mediabunny';
import type { AudioCodec, OutputFormat } from 'mediabunny';

export interface EncodingRequest {
  readonly format: OutputFormat;
  readonly codec: AudioCodec;
  /** Bits a second. */
  readonly bitrate: number;
  readonly sampleRate: number;
  /** Time of the first sample in seconds; negative for what an encoder puts in front. */
  readonly startSeconds: number;
}

/** Takes blocks of sound one after another; only the encoded bytes are held in memory. */
export interface AudioEncoding {
  /** Channels of equal length. */
  readonly add: (channels: readonly Float32Array[]) => Promise<void>;
  /** The bytes of the finished file. */
  readonly finish: () => Promise<Uint8Array>;
}

/** Starts an encoding. The encoder of the codec must have been registered. */
export async function startEncoding(request: EncodingRequest): Promise<AudioEncoding> {
  const target = new BufferTarget();
  const output = new Output({ format: request.format, target });
  const source = new AudioSampleSource({ codec: request.codec, bitrate: request.bitrate });
  output.addAudioTrack(source);
  await output.start();
  let frames = 0;
  return {
    add: async channels => {
      const length = channels[0]?.length ?? 0;
      if (length === 0) return;
      const data = new Float32Array(length * channels.length);
      channels.forEach((channel, index) => {
        data.set(channel, index * length);
      });
      const timestamp = request.startSeconds + frames / request.sampleRate;
      const sample = new AudioSample({
        data,
        format: 'f32-planar',
        numberOfChannels: channels.length,
        sampleRate: request.sampleRate,
        timestamp,
      });
      await source.add(sample);
      sample.close();
      frames += length;
    },
    finish: async () => {
      await output.finalize();
      if (target.buffer === null) throw new Error('the encoder gave no bytes');
      return new Uint8Array(target.buffer);
    },
  };
}
