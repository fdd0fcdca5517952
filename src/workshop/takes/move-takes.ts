import { mkdir, readFile, readdir, rename, rm } from 'node:fs/promises';
import { extname, join } from 'node:path';
import { z } from 'zod';
import { readLedger, recordingsIn, writeLedger } from '../../sound/index.js';
import { replaceFile } from '../files/replace-file.js';
import type { Move } from './plan-moves.js';
import { recordingsFolder } from './take-store.js';

/** Moves that have begun. All takes are gathered under their new names first, and only then put in place: they exchange their ids. */
interface Moving {
  readonly phase: 'gather' | 'place';
  readonly moves: readonly Move[];
  /** The ledger as it is to be in the end. */
  readonly ledger: Readonly<Record<string, { sound: string; words: string; byHand?: boolean | undefined }>>;
}

const shape: z.ZodType<Moving> = z.object({
  phase: z.enum(['gather', 'place']),
  moves: z.array(z.object({ from: z.string(), to: z.string() })),
  ledger: z.record(
    z.string(),
    z.object({ sound: z.string(), words: z.string(), byHand: z.boolean().optional() }),
  ),
});

const gathered = (takes: string): string => join(takes, 'recordings', '.moving');
const planFile = (takes: string): string => join(takes, 'recordings', '.moving.json');
const stemOf = (name: string): string => name.slice(0, name.length - extname(name).length);

const readPlan = async (takes: string): Promise<Moving | undefined> => {
  try {
    return shape.parse(JSON.parse(await readFile(planFile(takes), 'utf8')));
  } catch {
    return undefined;
  }
};
const writePlan = (takes: string, plan: Moving): Promise<boolean> =>
  replaceFile(planFile(takes), Buffer.from(JSON.stringify(plan)));

/** Gives takes other ids, each with all its recordings. Where it is cut short, `finishMoves` brings it to its end. */
export async function moveTakes(takes: string, moves: readonly Move[]): Promise<void> {
  const to = new Map(moves.map(move => [move.from, move.to]));
  const ledger = Object.fromEntries(
    [...(await readLedger(takes))].map(([name, entry]) => {
      const id = stemOf(name);
      return [`${to.get(id) ?? id}${extname(name)}`, entry];
    }),
  );
  await mkdir(join(takes, 'recordings'), { recursive: true });
  await writePlan(takes, { phase: 'gather', moves, ledger });
  await finishMoves(takes);
}

/** Brings moves to their end that a program could not finish; does nothing where there are none. */
export async function finishMoves(takes: string): Promise<void> {
  const plan = await readPlan(takes);
  if (plan === undefined) return;
  if (plan.phase === 'gather') {
    await mkdir(gathered(takes), { recursive: true });
    for (const move of plan.moves) await gather(takes, move);
    await writePlan(takes, { ...plan, phase: 'place' });
  }
  for (const entry of await readdir(gathered(takes), { withFileTypes: true }).catch(() => []))
    await rename(
      join(gathered(takes), entry.name),
      entry.isDirectory() ? recordingsFolder(takes, entry.name) : join(takes, entry.name),
    );
  await writeLedger(takes, new Map(Object.entries(plan.ledger).map(([name, entry]) => [name, known(entry)])));
  await rm(gathered(takes), { recursive: true, force: true });
  await rm(planFile(takes), { force: true });
}

const known = ({ byHand, ...entry }: Moving['ledger'][string]) => ({
  ...entry,
  ...(byHand === undefined ? {} : { byHand }),
});

/** What was gathered before a program ended is no longer where it was. */
async function gather(takes: string, { from, to }: Move): Promise<void> {
  for (const name of await recordingsIn(takes))
    if (stemOf(name) === from)
      await rename(join(takes, name), join(gathered(takes), `${to}${extname(name)}`));
  const folder = recordingsFolder(takes, from);
  const isThere = await readdir(folder).then(
    () => true,
    () => false,
  );
  if (isThere) await rename(folder, join(gathered(takes), to));
}
