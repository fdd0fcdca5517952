import { fork } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { dirname } from 'node:path';
import type { LessonReport } from '../output/index.js';
import { scoreLibrary } from '../workshop/index.js';
import type { ScoreLibrary } from '../workshop/index.js';
import { checkLessonFile } from './check-lesson-file.js';
import { processWord } from './process-word.js';

/** A lesson that was checked, as plain data. */
export interface CheckedFile {
  readonly report: LessonReport;
  /** Whether the lesson's file itself could be opened. */
  readonly opened: boolean;
}

export interface CheckManyOptions {
  readonly allowOutside: boolean;
  /** Whether the reports carry the lesson and its score. */
  readonly withSubject: boolean;
  /** Hears how many lessons are done. */
  readonly onProgress?: (done: number) => void;
}

/** Fewer lessons are done before a process has started. */
const leastForProcess = 6;

/** Checks lessons on all cores of the machine. The results are in the order of the files, whichever is done first. */
export async function checkMany(
  files: readonly string[],
  options: CheckManyOptions,
): Promise<readonly CheckedFile[]> {
  const program = process.argv[1];
  const number = Math.min(availableParallelism(), Math.floor(files.length / leastForProcess));
  if (number < 2 || program === undefined) return checkHere(files, options);
  const results: CheckedFile[] = [];
  let [next, done] = [0, 0];
  const words = [processWord, ...(options.allowOutside ? ['--allow-outside'] : [])];
  const start = (): ChildProcess =>
    fork(program, words, { serialization: 'advanced', stdio: ['ignore', 'ignore', 'inherit', 'ipc'] });
  const helpers = Array.from({ length: number }, start);
  const work = (helper: ChildProcess): Promise<void> =>
    new Promise((finished, failed) => {
      const give = (): void => {
        const index = next++;
        const file = files[index];
        if (file === undefined) finished();
        else helper.send({ index, file, withSubject: options.withSubject });
      };
      helper.on('message', ({ index, checked }: Answer) => {
        results[index] = checked;
        options.onProgress?.(++done);
        give();
      });
      helper.on('error', failed);
      helper.on('exit', () => {
        failed(new Error('a process ended before its work was done'));
      });
      give();
    });
  try {
    await Promise.all(helpers.map(work));
  } finally {
    for (const helper of helpers) if (helper.connected) helper.disconnect();
  }
  return results;
}

/** What a process is asked for, and what it answers. */
export interface Order {
  readonly index: number;
  readonly file: string;
  readonly withSubject: boolean;
}
export interface Answer {
  readonly index: number;
  readonly checked: CheckedFile;
}

async function checkHere(
  files: readonly string[],
  { allowOutside, withSubject, onProgress }: CheckManyOptions,
): Promise<readonly CheckedFile[]> {
  const check = checker(allowOutside);
  const results: CheckedFile[] = [];
  for (const file of files) {
    results.push(await check(file, withSubject));
    onProgress?.(results.length);
  }
  return results;
}

/** So many lessons share what was read of their scores; then memory is given back where a new folder begins. */
const mostOnShelf = 64;

/** Checks one lesson after another; neighbours in a folder share the analyses of their scores. */
export function checker(allowOutside: boolean): (file: string, withSubject: boolean) => Promise<CheckedFile> {
  let library: ScoreLibrary = scoreLibrary(allowOutside);
  let [folder, served] = ['', 0];
  return async (file, withSubject) => {
    if (served >= mostOnShelf && dirname(file) !== folder) {
      library = scoreLibrary(allowOutside);
      served = 0;
    }
    folder = dirname(file);
    served += 1;
    const { report, opened } = await checkLessonFile(file, library);
    const { subject, ...rest } = report;
    return { report: withSubject && subject !== undefined ? report : rest, opened };
  };
}
