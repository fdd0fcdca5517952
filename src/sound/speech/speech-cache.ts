import { createHash } from 'node:crypto';
import { mkdir, readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { readWav, wavFrames, wavHeader } from '../wav.js';
import type { SentenceSound } from './voice.js';

/** Speech that was spoken before, by the content of what was asked for. */
export interface SpeechCache {
  readonly read: (key: string) => Promise<SentenceSound | undefined>;
  readonly write: (key: string, sound: SentenceSound) => Promise<void>;
}

const isTimes = (value: unknown): value is SentenceSound['times'] =>
  Array.isArray(value) &&
  value.every(time => typeof time === 'object' && time !== null && 'start' in time && 'end' in time);

const wavOf = ({ samples, sampleRate }: SentenceSound): Uint8Array =>
  Buffer.concat([wavHeader(samples.length, 1, sampleRate), wavFrames(samples, 1)]);

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
        return isTimes(times) ? { ...readWav(await readFile(pathOf(key, 'wav'))), times } : undefined;
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
  };
}
