import { createHash } from 'node:crypto';
import { mkdir, readFile, readdir, rename, rm, stat, utimes, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { readWav, wavFrames, wavHeader } from '../wav.js';
import type { SentenceSound } from './voice.js';

/** Speech that was spoken before, by the content of what was asked for. */
export interface SpeechCache {
  readonly read: (key: string) => Promise<SentenceSound | undefined>;
  readonly write: (key: string, sound: SentenceSound) => Promise<void>;
  /** Removes what nobody has asked for in a long time. */
  readonly forgetUnused: () => Promise<void>;
}

/** What has not been read for so many days is removed. */
const keptDays = 60;
const day = 24 * 60 * 60 * 1000;

/** Names that this cache gives: nothing else in its folder is touched. */
const ownFile = /^[0-9a-f]{32}\.(?:wav|json)(?:\.\d+\.part)?$/u;

const isTimes = (value: unknown): value is SentenceSound['times'] =>
  Array.isArray(value) &&
  value.every(time => typeof time === 'object' && time !== null && 'start' in time && 'end' in time);

const wavOf = ({ samples, sampleRate }: SentenceSound): Uint8Array =>
  Buffer.concat([wavHeader(samples.length, 1, sampleRate), wavFrames(samples, 1)]);

/** A sound as it comes back from the cache, in 16 bits: so the first build and later ones are equal to the byte. */
export const asKept = (sound: SentenceSound): SentenceSound => ({
  ...readWav(wavOf(sound)),
  times: sound.times,
});

/**
 * A cache in a folder: a WAV and a file with the word times for each sentence, named by a hash of its key. The folder may be deleted at
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
  return {
    read: async key => {
      try {
        const times: unknown = JSON.parse(await readFile(pathOf(key, 'json'), 'utf8'));
        if (!isTimes(times)) return undefined;
        const sound = { ...readWav(await readFile(pathOf(key, 'wav'))), times };
        const now = new Date();
        for (const end of ['json', 'wav']) await utimes(pathOf(key, end), now, now).catch(() => undefined);
        return sound;
      } catch {
        return undefined;
      }
    },
    write: async (key, sound) => {
      try {
        await mkdir(folder, { recursive: true });
        await put(pathOf(key, 'wav'), wavOf(sound));
        await put(pathOf(key, 'json'), JSON.stringify(sound.times));
      } catch {
        // Without a cache the next run speaks again; that is slower, not wrong.
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
