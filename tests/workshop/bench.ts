import { copyFileSync, mkdtempSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { Worker } from 'node:worker_threads';
import { afterEach } from 'vitest';
import type { Answer, Answers, HostEvent, Payload, RequestName } from '../../src/bridge/index.js';
import { workshop } from '../../src/workshop/index.js';
import type { Workshop, WorkshopOptions } from '../../src/workshop/index.js';
import { built } from '../built.js';
import { sharedSpeech } from '../temporary-folder.js';

export const root = fileURLToPath(new URL('../../', import.meta.url));

/** The built thread, else the thread as it is in the sources, which starts more slowly. */
const newWorker = (): Worker => {
  const thread = built('cli/lesson-worker.js');
  if (thread !== undefined) return new Worker(thread);
  const loader = pathToFileURL(join(root, 'node_modules/tsx/dist/esm/api/index.mjs')).href;
  const program = pathToFileURL(join(root, 'src/workshop/bench/lesson-worker.ts')).href;
  return new Worker(
    `import('${loader}').then(({ register }) => { register(); return import('${program}'); })`,
    {
      eval: true,
    },
  );
};

export interface Bench {
  /** A folder of lessons, with `mill-road.yaml` and its score in it. */
  readonly folder: string;
  readonly lesson: string;
  readonly state: string;
  readonly host: Workshop;
  readonly events: readonly HostEvent[];
  readonly ask: <N extends RequestName>(name: N, payload: Payload<N>) => Promise<Answer<Answers[N]>>;
  /** What was answered; throws with the refusal where it was one. */
  readonly get: <N extends RequestName>(name: N, payload: Payload<N>) => Promise<Answers[N]>;
  /** The same folders with another host, as after a crash. */
  readonly again: (changed?: Partial<WorkshopOptions>) => Promise<Bench>;
}

const open: (() => Promise<void> | void)[] = [];
afterEach(async () => {
  for (const close of open.splice(0).reverse()) await close();
});

async function benchIn(folder: string, state: string, options: Partial<WorkshopOptions>): Promise<Bench> {
  const host = await workshop({
    folder,
    state,
    speech: sharedSpeech(),
    version: '0',
    newWorker,
    ...options,
  });
  const events: HostEvent[] = [];
  host.listen(event => events.push(event));
  open.push(() => host.close());
  const ask: Bench['ask'] = async (name, payload) =>
    (await host.answer(name, payload)) as Answer<Answers[typeof name]>;
  return {
    folder,
    lesson: join(folder, 'mill-road.yaml'),
    state,
    host,
    events,
    ask,
    get: async (name, payload) => {
      const answer = await ask(name, payload);
      if (!answer.ok) throw new Error(`${answer.problem.message}; ${answer.problem.help ?? ''}`);
      return answer.value;
    },
    again: (changed = {}) => benchIn(folder, state, { ...options, ...changed }),
  };
}

/** A workshop over real files in folders of its own. */
export async function bench(options: Partial<WorkshopOptions> = {}): Promise<Bench> {
  const base = realpathSync(mkdtempSync(join(tmpdir(), 'barwise-workshop-')));
  open.push(() => {
    rmSync(base, { recursive: true, force: true });
  });
  for (const name of ['mill-road.yaml', 'mill-road.abc'])
    copyFileSync(join(root, 'sample-lessons', name), join(base, name));
  return benchIn(base, `${base}/.state`, options);
}

/** Waits until something is so; the test's own limit ends the waiting. */
export async function until(isSo: () => boolean): Promise<void> {
  while (!isSo()) await new Promise(done => setTimeout(done, 20));
}
