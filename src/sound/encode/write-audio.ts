import { randomBytes } from 'node:crypto';
import { open, rename, rm } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { FilePathTarget } from 'mediabunny';
import { fileChannels, mixRate } from '../mono.js';
import { wavFrames, wavHeader } from '../wav.js';
import { startM4a } from './m4a.js';
import { mp3DelaySamples, startMp3 } from './mp3.js';
import type { AudioEncoding } from './encoded-audio.js';
import { clearMp4DatesIn } from './mp4-dates.js';

/** Where the sound of a lesson is written; each file is optional. Its folder must be there. */
export interface AudioFiles {
  readonly wav?: string;
  readonly mp3?: string;
  readonly m4a?: string;
}

/** Bits a second of the two compressed files. */
const bitrate = 128_000;

interface Sink {
  readonly add: (block: Float32Array) => Promise<void>;
  /** Puts the finished file in its place. */
  readonly finish: () => Promise<void>;
  /** Removes what was written so far. */
  readonly abandon: () => Promise<void>;
}

/** Tells the unfinished files of this program and thread from those of others. */
const own = randomBytes(6).toString('hex');
/** A file's name until it is whole, as the writers of other files name theirs. */
const unfinished = (path: string): string => join(dirname(path), `.${basename(path)}.${own}.part`);

async function wavSink(path: string): Promise<Sink> {
  const file = await open(unfinished(path), 'w');
  let frames = 0;
  await file.write(wavHeader(0, fileChannels, mixRate));
  return {
    add: async block => {
      await file.write(wavFrames(block, fileChannels));
      frames += block.length;
    },
    finish: async () => {
      await file.write(wavHeader(frames, fileChannels, mixRate), 0, undefined, 0);
      await file.close();
      await rename(unfinished(path), path);
    },
    abandon: async () => {
      await file.close();
      await rm(unfinished(path), { force: true });
    },
  };
}

/** How much of a file is kept in memory before it is written, in bytes; the library's own measure is sixteen times as much, several times over. */
const chunkSize = 2 ** 20;

const targetAt = (path: string): FilePathTarget => new FilePathTarget(unfinished(path), { chunkSize });

/** The encoder's delay is taken out of the silence at the start of the lesson, so that the MP3 is in step for players that know nothing of it. */
async function mp3Sink(path: string): Promise<Sink> {
  const encoding = await startMp3(targetAt(path), mixRate, fileChannels, bitrate);
  let skip = mp3DelaySamples;
  const add: Sink['add'] = block => {
    const dropped = Math.min(skip, block.length);
    skip -= dropped;
    return encoding.add(block.subarray(dropped));
  };
  return encodedSink(path, { ...encoding, add });
}

/** The dates in the file are taken out, so that equal sound gives equal bytes. */
async function m4aSink(path: string, seconds: number | undefined): Promise<Sink> {
  const encoding = await startM4a(targetAt(path), mixRate, fileChannels, bitrate, seconds);
  const finish = async (): Promise<void> => {
    await encoding.finish();
    await clearMp4DatesIn(unfinished(path));
  };
  return encodedSink(path, { ...encoding, finish });
}

function encodedSink(path: string, encoding: AudioEncoding): Sink {
  return {
    add: encoding.add,
    finish: async () => {
      await encoding.finish();
      await rename(unfinished(path), path);
    },
    abandon: async () => {
      await encoding.abandon();
      await rm(unfinished(path), { force: true });
    },
  };
}

/**
 * Writes mixed sound into files, block by block. A file appears whole or not at all. The sound must begin with at least 25 ms of
 * silence, as every timeline does. `onProgress` gets the seconds done so far; `seconds` is how long it will be, where that is known.
 */
export async function writeAudio(
  blocks: AsyncIterable<Float32Array>,
  files: AudioFiles,
  onProgress?: (seconds: number) => void,
  seconds?: number,
): Promise<void> {
  const sinks: Sink[] = [];
  try {
    if (files.wav !== undefined) sinks.push(await wavSink(files.wav));
    if (files.mp3 !== undefined) sinks.push(await mp3Sink(files.mp3));
    if (files.m4a !== undefined) sinks.push(await m4aSink(files.m4a, seconds));
    let frames = 0;
    for await (const block of blocks) {
      for (const sink of sinks) await sink.add(block);
      frames += block.length;
      onProgress?.(frames / mixRate);
    }
  } catch (error) {
    for (const sink of sinks) await sink.abandon();
    throw error;
  }
  for (const sink of sinks) await sink.finish();
}
