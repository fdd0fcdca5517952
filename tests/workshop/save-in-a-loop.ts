/** Saves two texts in turn until it is killed: a program of its own, for the tests that kill it or take its rights or its disk away. */
import { join } from 'node:path';
import { backupsIn } from '../../src/workshop/files/backups.js';
import type { Desk } from '../../src/workshop/files/desk.js';
import { journalIn } from '../../src/workshop/files/journal.js';
import { openLesson } from '../../src/workshop/files/open-lesson.js';
import { reachOf } from '../../src/workshop/files/reach.js';
import { recentIn } from '../../src/workshop/files/recent.js';
import { saveLesson } from '../../src/workshop/files/save-lesson.js';
import { turns } from '../../src/workshop/files/turns.js';
import { watchFiles } from '../../src/workshop/files/watch-files.js';

const [folder = '', lesson = '', state = '', rounds = ''] = process.argv.slice(2);
const inTurn = turns();
// The part of the workshop that handles files; the whole of it takes much longer to start.
const desk: Desk = {
  reach: await reachOf([folder]),
  recent: recentIn(state),
  inTurn,
  journal: journalIn(join(state, 'journal')),
  backups: backupsIn(join(state, 'former-states')),
  watcher: watchFiles(inTurn, () => undefined),
};
const opened = await openLesson(lesson, desk);
let base = opened.ok ? opened.value.stamp : undefined;
for (let round = 0; round < Number(rounds); round++) {
  const text = `title: ${round % 2 === 0 ? 'even' : 'odd'}\n`.repeat(70_000);
  const saved = await saveLesson({ path: lesson, text, ...(base === undefined ? {} : { base }) }, desk);
  process.stdout.write(`${JSON.stringify(saved)}\n`);
  if (saved.ok) base = saved.value.stamp;
}
desk.watcher.close();
