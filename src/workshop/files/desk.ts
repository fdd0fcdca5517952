import type { Backups } from './backups.js';
import type { Journal } from './journal.js';
import type { Reach } from './reach.js';
import type { Recent } from './recent.js';
import type { Turns } from './turns.js';
import type { Watcher } from './watch-files.js';

/** Everything that is needed to handle the author's files. */
export interface Desk {
  readonly reach: Reach;
  readonly journal: Journal;
  readonly backups: Backups;
  readonly recent: Recent;
  readonly watcher: Watcher;
  readonly inTurn: Turns;
}
