import { mkdir, open, readFile, readdir, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { mostSound } from '../../bridge/index.js';
import type { Payload } from '../../bridge/index.js';
import { replaceFile } from '../files/replace-file.js';

/** What is known of a recording besides its sound. */
const label = z.object({ path: z.string(), id: z.string(), words: z.string(), sampleRate: z.number() });
type Label = z.infer<typeof label>;

/** A recording that came to no end of its own: whoever made it closed unexpectedly. */
export interface Tape extends Label {
  readonly tape: string;
  /** Samples of one channel, 16 bits, low byte first. */
  readonly pcm: Uint8Array<ArrayBuffer>;
}

/** Recordings while they are made, in a folder: they outlive the window and its host. */
export interface Tapes {
  /**
   * Writes down the next stretch of a recording.
   * @returns how many samples are written down now; a stretch that would leave a gap is not among them
   */
  readonly add: (stretch: Payload<'tape'>) => Promise<number>;
  /** What was recorded of a lesson and cut off, oldest first. A recording that goes on meanwhile is none. */
  readonly cutOff: (path: string) => Promise<readonly Tape[]>;
  readonly find: (tape: string) => Promise<Tape | undefined>;
  readonly drop: (tape: string) => Promise<void>;
  /** The lessons of all tapes. */
  readonly lessons: () => Promise<readonly string[]>;
}

/** A window adds to its recording every second; in milliseconds. */
const pauseOfTheDead = 2500;
const bytesInSample = 2;
const endings = ['pcm', 'json'] as const;

export function tapesIn(folder: string): Tapes {
  const fileOf = (tape: string, ending: (typeof endings)[number]): string =>
    join(folder, `${tape}.${ending}`);
  const names = async (): Promise<readonly string[]> =>
    (await readdir(folder).catch((): readonly string[] => [])).flatMap(
      name => /^([0-9a-f]{32})\.json$/u.exec(name)?.[1] ?? [],
    );
  const labelOf = async (tape: string): Promise<Label | undefined> => {
    try {
      return label.parse(JSON.parse(await readFile(fileOf(tape, 'json'), 'utf8')));
    } catch {
      return undefined;
    }
  };
  const bytesOf = async (tape: string): Promise<number> =>
    (await stat(fileOf(tape, 'pcm')).catch(() => undefined))?.size ?? 0;
  const find = async (tape: string): Promise<Tape | undefined> => {
    const known = await labelOf(tape);
    const pcm = await readFile(fileOf(tape, 'pcm')).catch(() => undefined);
    // The last sample may be cut in two.
    const whole = pcm?.subarray(0, pcm.length - (pcm.length % bytesInSample));
    return known === undefined || whole === undefined || whole.length === 0
      ? undefined
      : { ...known, tape, pcm: new Uint8Array(whole) };
  };

  return {
    find,
    add: async ({ path, tape, id, words, sampleRate, at, pcm }) => {
      const before = await bytesOf(tape);
      const start = at * bytesInSample;
      if (start > before || start + pcm.length > mostSound) return Math.floor(before / bytesInSample);
      if (start === 0) {
        await mkdir(folder, { recursive: true });
        await replaceFile(
          fileOf(tape, 'json'),
          Buffer.from(JSON.stringify({ path, id, words, sampleRate } satisfies Label)),
        );
      }
      const file = await open(fileOf(tape, 'pcm'), before === 0 ? 'w' : 'r+');
      try {
        await file.write(pcm, 0, pcm.length, start);
        await file.datasync();
      } finally {
        await file.close();
      }
      return (start + pcm.length) / bytesInSample;
    },
    cutOff: async path => {
      const own = [];
      for (const tape of await names()) {
        const time = (await stat(fileOf(tape, 'pcm')).catch(() => undefined))?.mtimeMs;
        if (time !== undefined && (await labelOf(tape))?.path === path)
          own.push({ tape, time, bytes: await bytesOf(tape) });
      }
      const youngest = Math.max(...own.map(({ time }) => time));
      const wait = youngest + pauseOfTheDead - Date.now();
      if (wait > 0) await new Promise(done => setTimeout(done, Math.min(wait, pauseOfTheDead)));
      const found = [];
      for (const { tape, bytes } of own.sort((a, b) => a.time - b.time))
        if ((await bytesOf(tape)) === bytes) found.push(await find(tape));
      return found.filter(tape => tape !== undefined);
    },
    drop: async tape => {
      for (const ending of endings) await rm(fileOf(tape, ending), { force: true });
    },
    lessons: async () => {
      const labels = await Promise.all((await names()).map(labelOf));
      return [...new Set(labels.flatMap(known => known?.path ?? []))];
    },
  };
}
