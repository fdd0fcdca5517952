import { access } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Answer, OpenedLesson } from '../bridge/index.js';
import { granted } from './answer.js';
import type { Lane } from './bench/lane.js';
import { nameOf } from './bench/lesson-paths.js';
import type { Desk } from './files/desk.js';
import { outOfReach } from './files/reach.js';

/** A name beside the score that no file has yet. */
async function freePath(score: string): Promise<string> {
  for (let number = 1; ; number++) {
    const ending = number === 1 ? '' : `-${String(number)}`;
    const path = join(dirname(score), `${nameOf(score)}${ending}.yaml`);
    const isTaken = await access(path).then(
      () => true,
      () => false,
    );
    if (!isTaken) return path;
  }
}

/** A first lesson over a score, with a name beside it; nothing is written. */
export async function draftLessonOver(score: string, desk: Desk, lane: Lane): Promise<Answer<OpenedLesson>> {
  const real = await desk.reach.within(score);
  if (real === undefined) return outOfReach(score);
  const drafted = await lane.run('draft', { score: real });
  if (drafted === undefined) throw new Error('a draft cannot be stopped');
  if (!drafted.ok) return drafted;
  const path = await freePath(real);
  desk.watcher.know(path, undefined);
  return granted({ path, text: drafted.value.text });
}
