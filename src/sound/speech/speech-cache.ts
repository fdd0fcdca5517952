import { createHash } from 'node:crypto';
import { mkdir, readFile, readdir, rename, rm, stat, utimes, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { readWav, wavFile } from '../wav.js';
import type { SentenceSound } from './voice.js';

/** Speech that was spoken and encoded before, by the content of what was asked for. */
export interface SpeechCache {
  readonly read: (key: string) => Promise<SentenceSound | undefined>;
  readonly write: (key: string, sound: SentenceSound) => Promise<void>;
  readonly readClip: (key: string) => Promise<Uint8Array | undefined>;
  readonly writeClip: (key: string, clip: Uint8Array) => Promise<void>;
  /** Removes what nobody has asked for in a long time. */
  readonly forgetUnused: () => Promise<void>;
}

/** What has not been read for so many days is removed. */
const keptDays = 60;
const day = 24 * 60 * 60 * 1000;

/** Names that this cache gives: nothing else in its folder is touched. */
const ownFile = /^[0-9a-f]{32}\.(?:wav|json|mp3)(?:\.\d+\.part)?$/u;

const isTimes = (value: unknown): value is SentenceSound['times'] =>
  Array.isArray(value) &&
  value.every(time => typeof time === 'object' && time !== null && 'start' in time && 'end' in time);

/** A sound as it comes back from the cache, in 16 bits: so the first build and later ones are equal to the byte. */
export const asKept = (sound: SentenceSound): SentenceSound => ({
  ...readWav(wavFile(sound)),
  times: sound.times,
});

/**
 * A cache in a folder: a WAV and a file with the word times for each sentence, an MP3 for each clip of the page, named by a hash of their keys. The folder may be deleted at
 * any time; what cannot be read counts as not there, and a folder that cannot be written leaves the cache empty.
 */
export function folderCache(folder: string): SpeechCache {
  const pathOf = (key: string, end: string): string =>
    join(folder, `${createHash('sha256').update(key).digest('hex').slice(0, 32)}.${end}`);
  const put = async (path: string, content: Uint8Array | string): Promise<void> => {
    const temporary = `${path}.${String(process.pid)}.part`;
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
