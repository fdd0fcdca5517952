import { createHash } from 'node:crypto';
import { mkdir, open, readFile, readdir, rename, rm, stat, utimes, writeFile } from 'node:fs/promises';
import type { FileHandle } from 'node:fs/promises';
import { join } from 'node:path';
import type { SentenceSound } from './speech/voice.js';
import { readWav, wavFile } from './wav.js';

/** Sound that was spoken, encoded or rendered before, by the content of what was asked for. */
export interface SoundCache {
  readonly read: (key: string) => Promise<SentenceSound | undefined>;
  readonly write: (key: string, sound: SentenceSound) => Promise<void>;
  readonly readClip: (key: string) => Promise<Uint8Array | undefined>;
  readonly writeClip: (key: string, clip: Uint8Array) => Promise<void>;
  /** A passage of music, block by block and to the bit as it was rendered. */
  readonly readMusic: (key: string) => Promise<AsyncGenerator<Float32Array> | undefined>;
  /** The same blocks; once the last one was taken they are kept. */
  readonly keepMusic: (key: string, blocks: AsyncIterable<Float32Array>) => AsyncGenerator<Float32Array>;
  /** Removes what nobody has asked for in a long time. */
  readonly forgetUnused: () => Promise<void>;
}

/** What has not been read for so many days is removed. */
const keptDays = 60;
const day = 24 * 60 * 60 * 1000;

/** Names that this cache gives: nothing else in its folder is touched. */
const ownFile = /^[0-9a-f]{32}\.(?:wav|json|mp3|music)(?:(?:\.\d+)+\.part)?$/u;

const isTimes = (value: unknown): value is SentenceSound['times'] =>
  Array.isArray(value) &&
  value.every(time => typeof time === 'object' && time !== null && 'start' in time && 'end' in time);

/** A sound as it comes back from the cache, in 16 bits: so the first build and later ones are equal to the byte. */
export const asKept = (sound: SentenceSound): SentenceSound => ({
  ...readWav(wavFile(sound)),
  times: sound.times,
});

/** Samples that are read of a kept passage at once. */
const musicBlock = 48_000;
const bytesOf = (samples: Float32Array): Uint8Array =>
  new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength);

/** The samples of an open file of music, which is closed at their end. */
async function* samplesIn(file: FileHandle, count: number): AsyncGenerator<Float32Array> {
  try {
    for (let at = 0; at < count; at += musicBlock) {
      const block = new Float32Array(Math.min(musicBlock, count - at));
      await file.read(bytesOf(block), 0, block.byteLength, at * block.BYTES_PER_ELEMENT);
      yield block;
    }
  } finally {
    await file.close();
  }
}

/**
 * A cache in a folder: a WAV and a file with the word times for each sentence, an MP3 for each clip of the page, the bare samples of each
 * passage of music (32-bit floats), named by a hash of their keys. The folder may be deleted at any time; what cannot be read counts as not
 * there, and a folder that cannot be written leaves the cache empty.
 */
export function folderCache(folder: string): SoundCache {
  let parts = 0;
  const pathOf = (key: string, end: string): string =>
    join(folder, `${createHash('sha256').update(key).digest('hex').slice(0, 32)}.${end}`);
  /** A name until the file is whole; the same sound may be made twice at once. */
  const partOf = (path: string): string => `${path}.${String(process.pid)}.${String((parts += 1))}.part`;
  const put = async (path: string, content: Uint8Array | string): Promise<void> => {
    const temporary = partOf(path);
    await writeFile(temporary, content);
    await rename(temporary, path);
  };
  /** The date of a file says when it was last of use. */
  const touch = async (key: string, ends: readonly string[]): Promise<void> => {
    const now = new Date();
    for (const end of ends) await utimes(pathOf(key, end), now, now).catch(() => undefined);
  };
  /** Without a cache the next run does the work again; that is slower, not wrong. */
  const orNothing = async <T>(work: () => Promise<T>): Promise<T | undefined> => {
    try {
      return await work();
    } catch {
      return undefined;
    }
  };
  return {
    read: key =>
      orNothing(async () => {
        const times: unknown = JSON.parse(await readFile(pathOf(key, 'json'), 'utf8'));
        if (!isTimes(times)) return undefined;
        const sound = { ...readWav(await readFile(pathOf(key, 'wav'))), times };
        await touch(key, ['json', 'wav']);
        return sound;
      }),
    write: async (key, sound) => {
      await orNothing(async () => {
        await mkdir(folder, { recursive: true });
        await put(pathOf(key, 'wav'), wavFile(sound));
        await put(pathOf(key, 'json'), JSON.stringify(sound.times));
      });
    },
    readClip: key =>
      orNothing(async () => {
        const clip = await readFile(pathOf(key, 'mp3'));
        await touch(key, ['mp3']);
        return clip.length === 0 ? undefined : new Uint8Array(clip);
      }),
    writeClip: async (key, clip) => {
      await orNothing(async () => {
        await mkdir(folder, { recursive: true });
        await put(pathOf(key, 'mp3'), clip);
      });
    },
    readMusic: key =>
      orNothing(async () => {
        const file = await open(pathOf(key, 'music'));
        const count = (await file.stat()).size / Float32Array.BYTES_PER_ELEMENT;
        if (!Number.isInteger(count) || count === 0) {
          await file.close();
          return undefined;
        }
        await touch(key, ['music']);
        return samplesIn(file, count);
      }),
    keepMusic: async function* (key, blocks) {
      const path = pathOf(key, 'music');
      const part = partOf(path);
      let file = await orNothing(async () => {
        await mkdir(folder, { recursive: true });
        return open(part, 'w');
      });
      const giveUp = async (): Promise<void> => {
        await orNothing(async () => file?.close());
        file = undefined;
        await orNothing(async () => rm(part, { force: true }));
      };
      try {
        for await (const block of blocks) {
          const written = await orNothing(async () => (await file?.write(bytesOf(block)))?.bytesWritten);
          if (file !== undefined && written !== block.byteLength) await giveUp();
          yield block;
        }
        await orNothing(async () => {
          await file?.close();
          if (file !== undefined) await rename(part, path);
        });
        file = undefined;
      } finally {
        await giveUp();
      }
    },
    forgetUnused: async () => {
      const names = await readdir(folder).catch((): readonly string[] => []);
      for (const name of names.filter(other => ownFile.test(other))) {
        const path = join(folder, name);
        try {
          if (Date.now() - (await stat(path)).mtimeMs > keptDays * day) await rm(path);
        } catch {
          // Another run has removed it.
        }
      }
    },
  };
}
