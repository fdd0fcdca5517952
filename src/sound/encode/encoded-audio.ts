import { AudioSample, AudioSampleSource, Output } from 'mediabunny';
import type { AudioCodec, OutputFormat, Target } from 'mediabunny';

export interface EncodingRequest {
  /** Where the bytes go: memory or a file. */
  readonly target: Target;
  readonly format: OutputFormat;
  readonly codec: AudioCodec;
  /** Bits a second. */
  readonly bitrate: number;
  readonly sampleRate: number;
  /** Channels of the file; each one gets the same sound. */
  readonly channels: number;
  /** Time of the first sample in seconds; negative for what an encoder puts in front. */
  readonly startSeconds: number;
  /** The most packets that there will be, for formats that make room for them in front. */
  readonly mostPackets?: number;
}

/** Takes blocks of sound one after another. */
export interface AudioEncoding {
  readonly add: (samples: Float32Array) => Promise<void>;
  /** Ends the file; then the target holds all of it. */
  readonly finish: () => Promise<void>;
  /** Gives up; what the target holds is of no use. */
  readonly abandon: () => Promise<void>;
}

/** Starts an encoding. The encoder of the codec must have been registered. */
export async function startEncoding(request: EncodingRequest): Promise<AudioEncoding> {
  const output = new Output({ format: request.format, target: request.target });
  const source = new AudioSampleSource({ codec: request.codec, bitrate: request.bitrate });
  const { mostPackets } = request;
  output.addAudioTrack(source, mostPackets === undefined ? {} : { maximumPacketCount: mostPackets });
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
    finish: () => output.finalize(),
    abandon: () => output.cancel(),
  };
}
