import { AudioSample, AudioSampleSource, BufferTarget, Output } from 'mediabunny';
import type { AudioCodec, OutputFormat } from 'mediabunny';

/** Blocks of sound, each an array of channels of equal length. */
export type ChannelBlocks = AsyncIterable<readonly Float32Array[]> | Iterable<readonly Float32Array[]>;

export interface EncodingRequest {
  readonly format: OutputFormat;
  readonly codec: AudioCodec;
  /** Bits a second. */
  readonly bitrate: number;
  readonly sampleRate: number;
  /** Time of the first sample in seconds; negative for what an encoder puts in front. */
  readonly startSeconds: number;
}

/** Encodes blocks of sound one after another; only the encoded bytes are held in memory. */
export async function encodeAudio(blocks: ChannelBlocks, request: EncodingRequest): Promise<Uint8Array> {
  const target = new BufferTarget();
  const output = new Output({ format: request.format, target });
  const source = new AudioSampleSource({ codec: request.codec, bitrate: request.bitrate });
  output.addAudioTrack(source);
  await output.start();
  let frames = 0;
  for await (const channels of blocks) {
    const length = channels[0]?.length ?? 0;
    if (length === 0) continue;
    const data = new Float32Array(length * channels.length);
    channels.forEach((channel, index) => {
      data.set(channel, index * length);
    });
    const sample = new AudioSample({
      data,
      format: 'f32-planar',
      numberOfChannels: channels.length,
      sampleRate: request.sampleRate,
      timestamp: request.startSeconds + frames / request.sampleRate,
    });
    await source.add(sample);
    sample.close();
    frames += length;
  }
  await output.finalize();
  if (target.buffer === null) throw new Error('the encoder gave no bytes');
  return new Uint8Array(target.buffer);
}
