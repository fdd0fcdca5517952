import { createHash } from 'node:crypto';
import { readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

/** What is written down of a take. */
export interface LedgerEntry {
  /** Hash of the sound file. */
  readonly sound: string;
  /** The words that it was used for. */
  readonly words: string;
  /** Its ends were set by hand: the silence there is wanted. */
  readonly byHand?: boolean;
}

/** By the name of the sound file. */
export type Ledger = ReadonlyMap<string, LedgerEntry>;

/** The file in which it is kept, beside the takes. */
const ledgerName = 'takes.json';

function isLedger(value: unknown): value is Readonly<Record<string, LedgerEntry>> {
  const isEntry = (entry: unknown) =>
    typeof entry === 'object' &&
    entry !== null &&
    'sound' in entry &&
    'words' in entry &&
    typeof entry.words === 'string';
  return typeof value === 'object' && value !== null && Object.values(value).every(isEntry);
}

/** The ledger of a folder; empty where there is none that can be read. */
export async function readLedger(folder: string): Promise<Ledger> {
  try {
    const value: unknown = JSON.parse(await readFile(join(folder, ledgerName), 'utf8'));
    return new Map(isLedger(value) ? Object.entries(value) : []);
  } catch {
    return new Map();
  }
}

/** Writes the ledger whole. */
export async function writeLedger(folder: string, ledger: Ledger): Promise<void> {
  const path = join(folder, ledgerName);
  const entries = Object.fromEntries([...ledger].sort(([a], [b]) => (a < b ? -1 : 1)));
  await writeFile(`${path}.part`, `${JSON.stringify(entries, undefined, 2)}\n`);
  await rename(`${path}.part`, path);
}

/** Words without regard to how the lesson breaks its lines. */
export const oneLine = (text: string): string => text.replace(/\s+/gu, ' ').trim();

export const soundHash = (bytes: Uint8Array): string =>
  createHash('sha256').update(bytes).digest('hex').slice(0, 32);

/** Whether a take was made for other words than these; not where its sound is another than the one that was written down. */
export const isStale = (known: LedgerEntry | undefined, sound: string, words: string): boolean =>
  known?.sound === sound && known.words !== oneLine(words);
