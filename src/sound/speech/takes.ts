import { createHash } from 'node:crypto';
import { readdir, readFile, rename, writeFile } from 'node:fs/promises';
import { extname, join } from 'node:path';
import { mixRate } from '../mono.js';
import type { Mono } from '../mono.js';
import { readRecording } from '../decode/recording.js';
import { resample } from '../mix/resample.js';
import { voicedStretches } from './pauses.js';

/** A recording of one text, or of one paragraph of it. */
export type Take =
  | {
      readonly kind: 'take';
      readonly file: string;
      /** Trimmed at its silences, at the rate of the mix. */
      readonly sound: Mono;
      /** True where the words of the lesson have changed since the take was first used. */
      readonly stale: boolean;
    }
  | { readonly kind: 'unreadable'; readonly file: string; readonly reason: string };

/** The educator's recordings. */
export interface Takes {
  /** The take of a text by its id (`3.2`), or of its paragraph (1-based). `text` is what it should say. */
  readonly find: (id: string, paragraph: number | undefined, text: string) => Promise<Take | undefined>;
  /** Takes that belong to no text of the lesson, once all were asked for. */
  readonly unused: () => readonly string[];
  /** Writes down which words each take was used for. Call it when a build has succeeded. */
  readonly remember: () => Promise<void>;
}

/** The file in which the words are written down that each take was used for. */
const ledgerName = 'takes.json';
/** Silence that is left around a trimmed take, in seconds. */
const margin = 0.05;
/** Endings of the kinds that are read, the one that has lost nothing first. */
const readEndings: readonly string[] = ['.wav', '.mp3'];
/** Files that an educator takes for recordings; those that cannot be read are named in a finding. */
const soundFile = /\.(wav|mp3|m4a|aac|ogg|opus|flac|webm|wma|aiff?)$/iu;

interface LedgerEntry {
  /** Hash of the sound file. */
  readonly sound: string;
  readonly words: string;
}

function isLedger(value: unknown): value is Readonly<Record<string, LedgerEntry>> {
  const isEntry = (entry: unknown) =>
    typeof entry === 'object' &&
    entry !== null &&
    'sound' in entry &&
    'words' in entry &&
    typeof entry.words === 'string';
  return typeof value === 'object' && value !== null && Object.values(value).every(isEntry);
}

async function readLedger(folder: string): Promise<ReadonlyMap<string, LedgerEntry>> {
  try {
    const value: unknown = JSON.parse(await readFile(join(folder, ledgerName), 'utf8'));
    return new Map(isLedger(value) ? Object.entries(value) : []);
  } catch {
    return new Map();
  }
}

/** Cuts the silence at both ends of a recording, but for a little. */
function trimmed(sound: Mono): Mono {
  const stretches = voicedStretches(sound, 0.3);
  const [first, last] = [stretches[0], stretches.at(-1)];
  if (first === undefined || last === undefined) return sound;
  const from = Math.max(0, Math.round((first.start - margin) * sound.sampleRate));
  const to = Math.min(sound.samples.length, Math.round((last.end + margin) * sound.sampleRate));
  return { samples: sound.samples.slice(from, to), sampleRate: sound.sampleRate };
}

/** Of two files for the same words the one is taken that can be read and has lost least, on every machine the same. */
function inOrder(names: readonly string[]): readonly string[] {
  const rank = (name: string): number => {
    const place = readEndings.indexOf(extname(name).toLowerCase());
    return place < 0 ? readEndings.length : place;
  };
  return names.toSorted((a, b) => rank(a) - rank(b) || (a < b ? -1 : 1));
}

const oneLine = (text: string): string => text.replace(/\s+/gu, ' ').trim();

/**
 * Takes in a folder, WAV or MP3: `3.2.wav` is the second text of the third step, `3.2-1.wav` its first paragraph. The words that a take
 * was used for are kept beside it, so that a take is known to be stale when the lesson's words change and the recording does not.
 */
export async function takesIn(folder: string): Promise<Takes> {
  const names = inOrder(
    (await readdir(folder).catch((): readonly string[] => [])).filter(name => soundFile.test(name)),
  );
  const ledger = await readLedger(folder);
  const used = new Map<string, LedgerEntry>();
  return {
    find: async (id, paragraph, text) => {
      const stem = paragraph === undefined ? id : `${id}-${String(paragraph)}`;
      const name = names.find(other => other.slice(0, -extname(other).length) === stem);
      if (name === undefined) return undefined;
      const file = join(folder, name);
      try {
        const bytes = await readFile(file);
        const sound = createHash('sha256').update(bytes).digest('hex').slice(0, 32);
        const known = ledger.get(name);
        const words = oneLine(text);
        const stale = known?.sound === sound && known.words !== words;
        used.set(name, stale ? known : { sound, words });
        const recording = trimmed(await readRecording(bytes));
        return {
          kind: 'take',
          file,
          sound: { samples: await resample(recording, mixRate), sampleRate: mixRate },
          stale,
        };
      } catch (error) {
        return { kind: 'unreadable', file, reason: error instanceof Error ? error.message : String(error) };
      }
    },
    unused: () => names.filter(name => !used.has(name)),
    remember: async () => {
      if (used.size === 0) return;
      const path = join(folder, ledgerName);
      // What is known of takes that nobody asked for this time stays known.
      const kept = [...ledger].filter(([name]) => names.includes(name));
      const entries = Object.fromEntries(
        [...new Map([...kept, ...used])].sort(([a], [b]) => (a < b ? -1 : 1)),
      );
      await writeFile(`${path}.part`, `${JSON.stringify(entries, undefined, 2)}\n`);
      await rename(`${path}.part`, path);
    },
  };
}
