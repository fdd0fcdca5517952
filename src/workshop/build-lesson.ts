import { randomBytes } from 'node:crypto';
import { mkdir, rename, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Answer, Answers, HostEvent, Payload } from '../bridge/index.js';
import { checkWritable } from '../output/index.js';
import { granted, refused, refusedBySystem } from './answer.js';
import type { Lane } from './bench/lane.js';

/** Exports that are being made. */
export interface Builds {
  /** Writes everything into a folder. All files are made under a name of their own there, and only when every one is whole do they take their places. */
  readonly run: (asked: Payload<'build'>, folder: string) => Promise<Answer<Answers['build']>>;
  readonly cancel: (job: string) => void;
}

/** @param speech folder that keeps what was spoken */
export function builds(lane: Lane, speech: string, tell: (event: HostEvent) => void): Builds {
  const running = new Map<string, AbortController>();
  return {
    cancel: job => running.get(job)?.abort(),
    run: async ({ path, text, also, job }, folder) => {
      if (running.has(job)) return refused('this export is being made already');
      const own = new AbortController();
      running.set(job, own);
      const into = join(folder, `.export-${randomBytes(6).toString('hex')}.part`);
      try {
        await checkWritable(folder);
        await mkdir(into, { recursive: true });
        const built = await lane.run(
          'build',
          { path, text, speech, into, also },
          {
            signal: own.signal,
            onProgress: progress => {
              tell({ kind: 'progress', job, ...progress });
            },
          },
        );
        if (built === undefined) return refused('the export was cancelled', 'nothing was written');
        if (!built.ok) return built;
        const files = [];
        for (const name of built.value.names) {
          const target = join(folder, name);
          await rename(join(into, name), target);
          files.push({ path: target, bytes: (await stat(target)).size });
        }
        return granted({ files, left: built.value.left });
      } catch (error) {
        return refusedBySystem(
          error,
          `\`${folder}\` cannot be written`,
          'no file there was changed; choose another folder',
        );
      } finally {
        running.delete(job);
        await rm(into, { recursive: true, force: true }).catch(() => undefined);
      }
    },
  };
}
