import type { Worker } from 'node:worker_threads';
import type { Answer } from '../../bridge/index.js';
import type { JobName, JobResults, Jobs, Progress, Report } from './jobs.js';

/** Does one job after another in a thread. */
export interface Lane {
  /**
   * Does a job when those before it are done.
   * @returns `undefined` where the signal stopped it: the thread is ended in the middle of whatever it does
   * @throws where the program has a fault
   */
  readonly run: <N extends JobName>(
    name: N,
    job: Jobs[N],
    options?: { readonly signal?: AbortSignal; readonly onProgress?: (progress: Progress) => void },
  ) => Promise<Answer<JobResults[N]> | undefined>;
  readonly close: () => Promise<void>;
}

export function lane(newWorker: () => Worker): Lane {
  let worker: Worker | undefined;
  let before: Promise<unknown> = Promise.resolve();

  const end = async (): Promise<void> => {
    const ended = worker;
    worker = undefined;
    await ended?.terminate();
  };

  const doNow: Lane['run'] = async (name, job, { signal, onProgress } = {}) => {
    if (signal?.aborted === true) return undefined;
    const thread = (worker ??= newWorker());
    // An idle thread keeps no program alive.
    thread.ref();
    const report = await new Promise<Exclude<Report, { kind: 'progress' }> | undefined>(resolve => {
      const heard = (message: Report): void => {
        if (message.kind === 'progress') onProgress?.(message.progress);
        else finish(message);
      };
      const failed = (error: unknown): void => {
        finish({
          kind: 'fault',
          stack: error instanceof Error ? (error.stack ?? error.message) : String(error),
        });
      };
      const ended = (): void => {
        // Where the lane itself has ended the thread, nobody waits for its work.
        if (worker === thread) failed(new Error('the thread ended before its work was done'));
        else finish(undefined);
      };
      const stopped = (): void => {
        finish(undefined);
      };
      const finish = (with_: Exclude<Report, { kind: 'progress' }> | undefined): void => {
        thread.off('message', heard).off('error', failed).off('exit', ended);
        signal?.removeEventListener('abort', stopped);
        resolve(with_);
      };
      thread.on('message', heard).on('error', failed).on('exit', ended);
      signal?.addEventListener('abort', stopped);
      thread.postMessage({ name, job });
    });
    thread.unref();
    if (report?.kind === 'done') return report.answer as Answer<JobResults[typeof name]>;
    await end();
    if (report === undefined) return undefined;
    throw new Error(report.stack);
  };

  return {
    run: (name, job, options) => {
      const start = (): ReturnType<typeof doNow<typeof name>> => doNow(name, job, options);
      const now = before.then(start, start);
      before = now.catch(() => undefined);
      return now;
    },
    close: end,
  };
}
