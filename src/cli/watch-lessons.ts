import { watch } from 'node:fs';
import type { FSWatcher } from 'node:fs';
import { stat } from 'node:fs/promises';
import { dirname, resolve } from 'node:path';
import { comparedVersions } from '../lesson/index.js';
import type { LessonReport } from '../output/index.js';
import { checker } from './check-many.js';
import type { CheckedFile } from './check-many.js';
import type { ExitCode } from './exit-code.js';
import type { FoundFiles } from './find-files.js';
import type { Terminal } from './terminal.js';

export interface WatchOptions {
  /** Looks for the lessons anew, since one may have been added. */
  readonly find: () => Promise<FoundFiles>;
  /** The report, and what of it must stay in sight; `before` is what was shown last. */
  readonly show: (checked: readonly CheckedFile[], before: readonly CheckedFile[]) => Promise<Shown>;
  readonly allowOutside: boolean;
  readonly terminal: Terminal;
}

/** A report for a screen: what was found, and the counts with what has changed. */
export interface Shown {
  readonly body: string;
  readonly foot: string;
}

/** Editors save a file in several movements; it is looked at when they are over. In milliseconds. */
const settled = 120;
/** Where the system tells of no change (network folders), files are looked at anyway. In milliseconds. */
const round = 1500;

/** A lesson as last checked, and the state of every file that its verdicts depend on. */
interface Known {
  readonly checked: CheckedFile;
  readonly marks: ReadonlyMap<string, string>;
}

/** Size and time of a file; empty where there is none. */
async function markOf(path: string): Promise<string> {
  const status = await stat(path).catch(() => undefined);
  return status === undefined ? '' : `${String(status.size)} ${String(status.mtimeMs)} ${String(status.ino)}`;
}

/** The lesson and every score that it names, as full paths. */
function filesOf({ file, subject }: LessonReport): readonly string[] {
  if (subject === undefined) return [resolve(file)];
  const { lesson } = subject;
  const played = lesson.steps.flatMap(({ script }) =>
    script.flatMap(action => (action.kind === 'play' ? (action.score ?? []) : [])),
  );
  const scores = [lesson.score, ...played, ...comparedVersions(lesson)];
  return [resolve(file), ...scores.map(({ value }) => resolve(dirname(file), value))];
}

/** Shows the lessons, and again whenever one of them or one of their scores has changed; only those are checked anew. Ends with Ctrl-C. */
export async function watchLessons({ find, show, allowOutside, terminal }: WatchOptions): Promise<ExitCode> {
  const known = new Map<string, Known>();
  const folders = new Map<string, FSWatcher>();

  const isStale = async (file: string): Promise<boolean> => {
    const before = known.get(file);
    if (before === undefined) return true;
    const now = await Promise.all(
      [...before.marks].map(async ([path, mark]) => (await markOf(path)) === mark),
    );
    return now.includes(false);
  };
  /** Checks what has changed; whether anything has. */
  const refresh = async (): Promise<boolean> => {
    const { files } = await find();
    const gone = [...known.keys()].filter(file => !files.includes(file));
    for (const file of gone) known.delete(file);
    let changed = gone.length > 0;
    const check = checker(allowOutside);
    for (const file of files) {
      if (!(await isStale(file))) continue;
      changed = true;
      terminal.progress(`checking ${file}`);
      // What is noted before it is read cannot be missed when it changes meanwhile.
      const early = await markOf(resolve(file));
      const checked = await check(file, true);
      const marks = await Promise.all(
        filesOf(checked.report).map(async path => [path, await markOf(path)] as const),
      );
      known.set(file, { checked, marks: new Map([...marks, [resolve(file), early]]) });
    }
    return changed;
  };
  let last: readonly CheckedFile[] = [];
  const draw = async (): Promise<void> => {
    const { files } = await find();
    const checked = files.flatMap(file => known.get(file)?.checked ?? []);
    const { body, foot } = await show(checked, last);
    last = checked;
    terminal.redraw(
      body,
      `${foot}\nwatching ${String(files.length)} ${files.length === 1 ? 'lesson' : 'lessons'}; Ctrl-C ends\n`,
    );
  };

  return new Promise((ended, failed) => {
    let timer: NodeJS.Timeout | undefined;
    let turn: Promise<void> = Promise.resolve();
    const lookSoon = (): void => {
      clearTimeout(timer);
      timer = setTimeout(look, settled);
    };
    const watchFolders = (): void => {
      const wanted = new Set(
        [...known.values()].flatMap(({ marks }) => [...marks.keys()].map(path => dirname(path))),
      );
      for (const folder of wanted) {
        if (folders.has(folder)) continue;
        try {
          folders.set(
            folder,
            watch(folder, lookSoon).on('error', () => undefined),
          );
        } catch {
          // The regular round finds what changes there.
        }
      }
    };
    const look = (): void => {
      turn = turn.then(async () => {
        if (await refresh()) await draw();
        watchFolders();
      });
      turn.catch(failed);
    };
    const rounds = setInterval(look, round);
    process.once('SIGINT', () => {
      clearInterval(rounds);
      clearTimeout(timer);
      for (const watcher of folders.values()) watcher.close();
      ended(0);
    });
    look();
  });
}
