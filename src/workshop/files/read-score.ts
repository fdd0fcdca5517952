import { dirname, isAbsolute, join } from 'node:path';
import type { Answer, Answers } from '../../bridge/index.js';
import { granted, refused } from '../answer.js';
import type { Desk } from './desk.js';
import { readState } from './file-state.js';
import { outOfReach, reachOf } from './reach.js';

/** A score that a lesson names. A lesson may come from somebody else, so it opens no file outside its own folder. */
export async function readScoreBeside(
  lesson: string,
  score: string,
  desk: Desk,
): Promise<Answer<Answers['readScore']>> {
  const real = await desk.reach.within(lesson);
  if (real === undefined) return outOfReach(lesson);
  const folder = dirname(real);
  const path = await (await reachOf([folder])).within(isAbsolute(score) ? score : join(folder, score));
  if (path === undefined || (await desk.reach.within(path)) === undefined)
    return refused(`\`${score}\` lies outside the lesson's folder`, 'put the score beside the lesson');
  return desk.inTurn(path, async () => {
    const state = await readState(path);
    if (state?.ok === false) return state;
    desk.watcher.know(path, state?.stamp);
    if (state === undefined)
      return refused(`there is no file \`${score}\``, 'a score is looked for beside the lesson');
    return granted({ text: state.text, stamp: state.stamp });
  });
}
