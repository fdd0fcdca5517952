import { readdir, readFile } from 'node:fs/promises';
import { extname, join } from 'node:path';
import { mixRate } from '../mono.js';
import type { Mono } from '../mono.js';
import { readRecording } from '../decode/recording.js';
import { resample } from '../mix/resample.js';
import { cutAt, recordingEnds } from './recording-ends.js';
import { isStale, oneLine, readLedger, soundHash, writeLedger } from './take-ledger.js';
import type { LedgerEntry } from './take-ledger.js';

/** A recording of one text, or of one paragraph of it. */
export type Take =
  | {
      readonly kind: 'take';
      readonly file: string;
      /** Trimmed at its silences unless its ends were set by hand, at the rate of the mix. */
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

/** Endings of the kinds that are read, the one that has lost nothing first. */
const readEndings: readonly string[] = ['.wav', '.mp3'];
/** Files that an educator takes for recordings; those that cannot be read are named in a finding. */
const soundFile = /\.(wav|mp3|m4a|aac|ogg|opus|flac|webm|wma|aiff?)$/iu;

/** Of two files for the same words the one is taken that can be read and has lost least, on every machine the same. */
function inOrder(names: readonly string[]): readonly string[] {
  const rank = (name: string): number => {
    const place = readEndings.indexOf(extname(name).toLowerCase());
    return place < 0 ? readEndings.length : place;
  };
  return names.toSorted((a, b) => rank(a) - rank(b) || (a < b ? -1 : 1));
}

/** Names of the recordings in a folder; of two for the same words the one that is taken comes first. */
export const recordingsIn = async (folder: string): Promise<readonly string[]> =>
  inOrder((await readdir(folder).catch((): readonly string[] => [])).filter(name => soundFile.test(name)));

/**
 * Takes in a folder, WAV or MP3: `3.2.wav` is the second text of the third step, `3.2-1.wav` its first paragraph. The words that a take
 * was used for are kept beside it, so that a take is known to be stale when the lesson's words change and the recording does not.
 */
export async function takesIn(folder: string): Promise<Takes> {
  const names = await recordingsIn(folder);
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
        const sound = soundHash(bytes);
        const known = ledger.get(name);
        const entry = known?.sound === sound ? known : { sound, words: oneLine(text) };
        used.set(name, entry);
        const whole = await readRecording(bytes);
        const recording = entry.byHand === true ? whole : cutAt(whole, recordingEnds(whole));
        return {
          kind: 'take',
          file,
          sound: { samples: await resample(recording, mixRate), sampleRate: mixRate },
          stale: isStale(known, sound, text),
        };
      } catch (error) {
        return { kind: 'unreadable', file, reason: error instanceof Error ? error.message : String(error) };
      }
    },
    unused: () => names.filter(name => !used.has(name)),
    remember: async () => {
      if (used.size === 0) return;
      // What is known of takes that nobody asked for this time stays known.
      const kept = [...ledger].filter(([name]) => names.includes(name));
      await writeLedger(folder, new Map([...kept, ...used]));
    },
  };
}
