import { readdir } from 'node:fs/promises';
import { extname, join } from 'node:path';
import type { SpokenPart } from '../../bridge/index.js';
import { oneLine, readLedger, recordingsIn } from '../../sound/index.js';
import type { Worded } from './plan-moves.js';
import { soundFacts } from './sound-facts.js';
import { readHistory } from './take-history.js';
import { recordingsFolder } from './take-store.js';

/** Texts and paragraphs as `planMoves` compares them. */
export const textsOf = (parts: readonly SpokenPart[]): readonly Worded[] =>
  parts.map(({ id, words }) => ({ id, words: oneLine(words) }));

/** What every take of a folder was made for; no words where nobody has written them down. */
export async function takesMadeFor(takes: string): Promise<readonly Worded[]> {
  const ledger = await readLedger(takes);
  const found = new Map<string, string>();
  for (const entry of await readdir(join(takes, 'recordings'), { withFileTypes: true }).catch(() => [])) {
    if (!entry.isDirectory() || entry.name.startsWith('.')) continue;
    const { words } = await readHistory(recordingsFolder(takes, entry.name));
    const latest = Math.max(0, ...Object.keys(words).map(Number));
    found.set(entry.name, oneLine(words[String(latest)] ?? ''));
  }
  // What speaks the text says more than what was recorded last.
  for (const name of (await recordingsIn(takes)).toReversed()) {
    const id = name.slice(0, name.length - extname(name).length);
    const entry = ledger.get(name);
    const { hash } = await soundFacts(join(takes, name));
    found.set(id, entry?.sound === hash ? entry.words : (found.get(id) ?? ''));
  }
  return [...found].map(([id, words]) => ({ id, words })).sort((a, b) => (a.id < b.id ? -1 : 1));
}
