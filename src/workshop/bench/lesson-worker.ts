import { parentPort } from 'node:worker_threads';
import type { Answer } from '../../bridge/index.js';
import { buildJob } from './build-job.js';
import { draftJob } from './draft-job.js';
import type { JobName, JobResults, Order, Progress, Report } from './jobs.js';
import { previewJob } from './preview-job.js';
import { saveTake, undoTake, useTake } from '../takes/change-take.js';
import { followWords, listTakes } from '../takes/list-takes.js';
import { readTake } from '../takes/read-take.js';

/** The thread in which long work is done: one order after another. */
function work(order: Order, onProgress: (progress: Progress) => void): Promise<Answer<JobResults[JobName]>> {
  switch (order.name) {
    case 'preview':
      return previewJob(order.job, onProgress);
    case 'build':
      return buildJob(order.job, onProgress);
    case 'draft':
      return draftJob(order.job);
    case 'takes':
      return listTakes(order.job);
    case 'read-take':
      return readTake(order.job);
    case 'save-take':
      return saveTake(order.job);
    case 'use-take':
      return useTake(order.job);
    case 'undo-take':
      return undoTake(order.job);
    case 'move-takes':
      return followWords(order.job);
  }
}

const tell = (report: Report): void => parentPort?.postMessage(report);

parentPort?.on('message', (order: Order) => {
  work(order, progress => {
    tell({ kind: 'progress', progress });
  }).then(
    answer => {
      tell({ kind: 'done', answer });
    },
    (error: unknown) => {
      tell({ kind: 'fault', stack: error instanceof Error ? (error.stack ?? error.message) : String(error) });
    },
  );
});
