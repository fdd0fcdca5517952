import { AudioSample, AudioSampleSource, BufferTarget, Output } from 'mediabunny';
import type { AudioCodec, OutputFormat } from 'mediabunny';

export interface EncodingRequest {
  readonly format: OutputFormat;
  readonly codec: AudioCodec;
  /** Bits a second. */
  readonly bitrate: number;
  readonly sampleRate: number;
  /** Channels of the file; each one gets the same sound. */
  readonly channels: number;
  /** Time of the first sample in seconds; negative for what an encoder puts in front. */
  readonly startSeconds: number;
}

/** Takes blocks of sound one after another; only the encoded bytes are held in memory. */
export interface AudioEncoding {
  readonly add: (samples: Float32Array) => Promise<void>;
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
    add: async samples => {
      if (samples.length === 0) return;
      const data = new Float32Array(samples.length * request.channels);
      for (let channel = 0; channel < request.channels; channel += 1)
        data.set(samples, channel * samples.length);
      const timestamp = request.startSeconds + frames / request.sampleRate;
      const sample = new AudioSample({
        data,
        format: 'f32-planar',
        numberOfChannels: request.channels,
        sampleRate: request.sampleRate,
        timestamp,
      });
      await source.add(sample);
      sample.close();
      frames += samples.length;
    },
    finish: async () => {
      await output.finalize();
      if (target.buffer === null) throw new Error('the encoder gave no bytes');
      return new Uint8Array(target.buffer);
    },
  };
}
