import { readFile, stat } from 'node:fs/promises';
import { cutAt, readRecording, recordingEnds, soundHash } from '../../sound/index.js';
import type { Mono } from '../../sound/index.js';

/** What is to be known of a sound file without hearing it. */
export interface SoundFacts {
  readonly hash: string;
  /** Absent where it cannot be read. */
  readonly seconds?: number;
  /** Length without the silence at both ends. */
  readonly spokenSeconds?: number;
  /** Why it cannot be read. */
  readonly trouble?: string;
}

/** Facts by the path of the file, with a mark that changes when the file does. */
const known = new Map<string, { readonly mark: string; readonly facts: SoundFacts }>();

const lengthOf = ({ samples, sampleRate }: Mono): number => samples.length / sampleRate;

/** Reads a sound file; once, as long as it does not change. */
export async function soundFacts(file: string): Promise<SoundFacts> {
  const { size, mtimeMs, ino } = await stat(file);
  const mark = [size, mtimeMs, ino].join(' ');
  const before = known.get(file);
  if (before?.mark === mark) return before.facts;
  const bytes = await readFile(file);
  const facts = { hash: soundHash(bytes), ...(await lengths(bytes)) };
  known.set(file, { mark, facts });
  return facts;
}

async function lengths(bytes: Uint8Array): Promise<Omit<SoundFacts, 'hash'>> {
  try {
    const sound = await readRecording(bytes);
    return { seconds: lengthOf(sound), spokenSeconds: lengthOf(cutAt(sound, recordingEnds(sound))) };
  } catch (error) {
    if (error instanceof RangeError) return { trouble: error.message };
    throw error;
  }
}
