import { watch } from 'node:fs';
import type { FSWatcher } from 'node:fs';
import { stat } from 'node:fs/promises';
import { dirname } from 'node:path';
import type { HostEvent } from '../../bridge/index.js';
import { readState } from './file-state.js';
import type { Turns } from './turns.js';

/** Editors replace a file in several movements; it is looked at when they are over. In milliseconds. */
const settled = 150;
/** Where the system tells nothing (network folders), files are looked at anyway. In milliseconds. */
const round = 2000;
/** Files that are watched at a time; the one that was named longest ago makes room. */
const mostWatched = 64;

/** Notices when another program changes a file. */
export interface Watcher {
  /** From now on the file is watched; `stamp` is the state that the window knows, `undefined` where it knows that there is none. */
  readonly know: (path: string, stamp: string | undefined) => void;
  readonly close: () => void;
}

interface Known {
  readonly stamp: string | undefined;
  /** Size, time and number of the file when it was last looked at. */
  readonly mark: string;
}

const markOf = async (path: string): Promise<string> => {
  const status = await stat(path).catch(() => undefined);
  return status === undefined ? '' : [status.size, status.mtimeMs, status.ino].join(' ');
};

/**
 * @param inTurn lets no look at a file fall between the steps of a save
 * @param tell hears what happened, once for each new state
 */
export function watchFiles(inTurn: Turns, tell: (event: HostEvent) => void): Watcher {
  const files = new Map<string, Known>();
  const folders = new Map<string, FSWatcher>();
  const waiting = new Map<string, NodeJS.Timeout>();

  const look = (path: string): Promise<void> =>
    inTurn(path, async () => {
      const known = files.get(path);
      const mark = await markOf(path);
      if (known === undefined || known.mark === mark) return;
      const state = await readState(path);
      if (state?.ok === false) {
        // Once for each of its states; whatever can be read after it is a change.
        files.set(path, { stamp: undefined, mark });
        tell({ kind: 'unreadable-on-disk', path, why: state.problem.message });
        return;
      }
      files.set(path, { stamp: state?.stamp, mark });
      if (state?.stamp === known.stamp) return;
      tell(
        state === undefined
          ? { kind: 'removed-on-disk', path }
          : { kind: 'changed-on-disk', path, stamp: state.stamp },
      );
    });

  const lookSoon = (path: string): void => {
    clearTimeout(waiting.get(path));
    const timer = setTimeout(() => {
      waiting.delete(path);
      void look(path);
    }, settled);
    waiting.set(path, timer.unref());
  };

  const watchFolder = (folder: string): void => {
    if (folders.has(folder)) return;
    try {
      const watcher = watch(folder, { persistent: false }, () => {
        for (const path of files.keys()) if (dirname(path) === folder) lookSoon(path);
      });
      watcher.on('error', () => {
        watcher.close();
        folders.delete(folder);
      });
      folders.set(folder, watcher);
    } catch {
      // The regular round finds it.
    }
  };

  const rounds = setInterval(() => {
    for (const path of files.keys()) void look(path);
  }, round).unref();

  return {
    know: (path, stamp) => {
      files.delete(path);
      // Without a mark the next look reads the file and compares it with the stamp.
      files.set(path, { stamp, mark: 'not looked at' });
      for (const oldest of files.keys()) if (files.size > mostWatched) files.delete(oldest);
      watchFolder(dirname(path));
    },
    close: () => {
      clearInterval(rounds);
      for (const timer of waiting.values()) clearTimeout(timer);
      for (const watcher of folders.values()) watcher.close();
    },
  };
}
