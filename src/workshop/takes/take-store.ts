import { copyFile, mkdir, readFile, rm, stat } from 'node:fs/promises';
import { basename, extname, join } from 'node:path';
import {
  cutAt,
  oneLine,
  readLedger,
  readRecording,
  recordingsIn,
  soundHash,
  wavFile,
  writeLedger,
} from '../../sound/index.js';
import { replaceFile } from '../files/replace-file.js';
import { readHistory, writeHistory } from './take-history.js';
import type { TakeHistory, TakeUse } from './take-history.js';

/** A recording of a text, as it was made. */
export interface StoredRecording {
  readonly number: number;
  /** Absolute path. */
  readonly file: string;
  /** The words that it was made with, where they are known. */
  readonly words?: string;
}

/** How a text stands on the disk. */
export interface TakeLook {
  /** In the order of making. */
  readonly recordings: readonly StoredRecording[];
  /** What speaks the text: a recording, or (as 0) a file that another program put there. */
  readonly current?: { readonly file: string; readonly recording: number; readonly cut?: TakeUse['cut'] };
  readonly canUndo: boolean;
}

/**
 * The recordings of one text. Every recording is kept whole, `takes/recordings/3.2/1.wav`; what speaks the text, `takes/3.2.wav`, is made
 * out of one of them. So a choice, a cut and a removal lose nothing. A file that another program put in the place of the take is kept
 * among the recordings before anything takes its place.
 */
export interface TakeStore {
  readonly look: () => Promise<TakeLook>;
  /** Keeps a recording (WAV) and lets it speak the text. @returns its number */
  readonly add: (wav: Uint8Array, words: string) => Promise<number>;
  /** Lets a recording speak the text. @returns whether there is such a recording; throws a RangeError where nothing of it is left */
  readonly use: (use: TakeUse) => Promise<boolean>;
  /** @returns whether there was anything to undo */
  readonly undo: () => Promise<boolean>;
}

interface Found {
  readonly recordings: readonly { readonly number: number; readonly file: string }[];
  /** Files in the place of the take, the one that speaks first. */
  readonly files: readonly string[];
  readonly history: TakeHistory;
}

const stemOf = (name: string): string => name.slice(0, name.length - extname(name).length);

/** Folder of the recordings of a text. */
export const recordingsFolder = (takes: string, id: string): string => join(takes, 'recordings', id);

/** @param takes folder of the lesson's takes */
export function takeStore(takes: string, id: string): TakeStore {
  const folder = recordingsFolder(takes, id);

  const find = async (): Promise<Found> => ({
    recordings: (await recordingsIn(folder))
      .flatMap(name => {
        const number = Number(stemOf(name));
        return Number.isInteger(number) && number > 0 ? [{ number, file: join(folder, name) }] : [];
      })
      .sort((a, b) => a.number - b.number),
    files: (await recordingsIn(takes)).filter(name => stemOf(name) === id).map(name => join(takes, name)),
    history: await readHistory(folder),
  });

  /** What the first of the files in the place of the take is. */
  const currentOf = async ({ recordings, files, history }: Found): Promise<TakeUse | undefined> => {
    const [file] = files;
    if (file === undefined) return undefined;
    const bytes = await readFile(file);
    const last = history.uses.at(-1);
    if (last?.recording !== undefined && history.written === soundHash(bytes)) return last;
    for (const { number, file: own } of recordings)
      if ((await stat(own)).size === bytes.length && (await readFile(own)).equals(bytes))
        return { recording: number, elsewhere: true };
    return { elsewhere: true };
  };

  /** Makes the history say what stands on the disk, and keeps files of other programs among the recordings. */
  const settled = async (): Promise<Found> => {
    const found = await find();
    let { recordings } = found;
    let words = found.history.words;
    let current: TakeUse = {};
    for (const file of [...found.files].reverse()) {
      current = (await currentOf({ ...found, recordings, files: [file] })) ?? {};
      if (current.recording !== undefined) continue;
      const number = nextNumber(recordings);
      const copy = join(folder, `${String(number)}${extname(file)}`);
      await mkdir(folder, { recursive: true });
      await copyFile(file, copy);
      recordings = [...recordings, { number, file: copy }];
      const known = (await readLedger(takes)).get(basename(file));
      if (known?.sound === soundHash(await readFile(copy)))
        words = { ...words, [String(number)]: known.words };
      current = { recording: number, elsewhere: true };
    }
    const last = found.history.uses.at(-1) ?? {};
    const isTold = last.recording === current.recording && (found.files.length === 0 || last === current);
    const uses = isTold ? found.history.uses : [...found.history.uses, { ...current, elsewhere: true }];
    return { ...found, recordings, history: { ...found.history, words, uses } };
  };

  /** Makes the take out of what is used last, and writes the history down. */
  const apply = async ({ recordings, files }: Found, history: TakeHistory): Promise<boolean> => {
    const use = history.uses.at(-1);
    const chosen = recordings.find(({ number }) => number === use?.recording);
    if (use?.recording !== undefined && chosen === undefined) return false;
    const ledger = new Map(await readLedger(takes));
    for (const file of files) ledger.delete(basename(file));
    let written: string | undefined;
    let target: string | undefined;
    if (chosen !== undefined) {
      const whole = await readFile(chosen.file);
      const bytes = use?.cut === undefined ? whole : await cutOf(whole, use.cut);
      const name = `${id}${use?.cut === undefined ? extname(chosen.file) : '.wav'}`;
      target = join(takes, name);
      written = soundHash(bytes);
      const words = history.words[String(chosen.number)];
      await replaceFile(target, bytes);
      if (words !== undefined)
        ledger.set(name, {
          sound: written,
          words: oneLine(words),
          ...(use?.cut === undefined ? {} : { byHand: true }),
        });
    }
    for (const file of files) if (file !== target) await rm(file, { force: true });
    if (ledger.size > 0 || files.length > 0) await writeLedger(takes, ledger);
    await writeHistory(folder, { ...history, written });
    return true;
  };

  return {
    look: async () => {
      const found = await find();
      const current = await currentOf(found);
      const { words, uses } = found.history;
      const [file] = found.files;
      const last = uses.at(-1);
      return {
        recordings: found.recordings.map(recording => {
          const known = words[String(recording.number)];
          return { ...recording, ...(known === undefined ? {} : { words: known }) };
        }),
        ...(file === undefined || current === undefined
          ? {}
          : {
              current: {
                file,
                recording: current.recording ?? 0,
                ...(current.cut === undefined ? {} : { cut: current.cut }),
              },
            }),
        canUndo:
          last !== undefined &&
          last.elsewhere !== true &&
          current?.elsewhere !== true &&
          last.recording === current?.recording,
      };
    },
    add: async (wav, words) => {
      const found = await settled();
      await mkdir(folder, { recursive: true });
      const number = nextNumber(found.recordings);
      const file = join(folder, `${String(number)}.wav`);
      await replaceFile(file, wav);
      await apply(
        { ...found, recordings: [...found.recordings, { number, file }] },
        {
          ...found.history,
          words: { ...found.history.words, [String(number)]: words },
          uses: [...found.history.uses, { recording: number }],
        },
      );
      return number;
    },
    use: async use => {
      const found = await settled();
      const now = found.history.uses.at(-1) ?? {};
      const isSame =
        now.recording === use.recording && now.cut?.from === use.cut?.from && now.cut?.to === use.cut?.to;
      if (isSame) return true;
      return apply(found, { ...found.history, uses: [...found.history.uses, use] });
    },
    undo: async () => {
      const found = await settled();
      const last = found.history.uses.at(-1);
      if (last === undefined || last.elsewhere === true) return false;
      return apply(found, { ...found.history, uses: found.history.uses.slice(0, -1) });
    },
  };
}

const nextNumber = (recordings: Found['recordings']): number =>
  recordings.reduce((greatest, { number }) => Math.max(greatest, number), 0) + 1;

/** A part of a recording as a WAV file. */
async function cutOf(bytes: Uint8Array, { from, to }: NonNullable<TakeUse['cut']>): Promise<Uint8Array> {
  const part = cutAt(await readRecording(bytes), { start: from, end: to });
  if (part.samples.length === 0) throw new RangeError('nothing of it is left');
  return wavFile(part);
}
