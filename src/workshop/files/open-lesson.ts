import { basename, dirname } from 'node:path';
import type { Answer, OpenedLesson } from '../../bridge/index.js';
import { granted, refused } from '../answer.js';
import { isLessonName } from './browse.js';
import type { Desk } from './desk.js';
import { readState } from './file-state.js';
import { lessonTitle } from './lesson-title.js';
import { outOfReach } from './reach.js';
import { sweepParts } from '../../output/index.js';

/** The lesson's text, and unsaved work where there is any. A lesson that is not on the disk opens where unsaved work is left of it. */
export async function openLesson(path: string, desk: Desk): Promise<Answer<OpenedLesson>> {
  const real = await desk.reach.within(path);
  if (real === undefined) return outOfReach(path);
  if (!isLessonName(real))
    return refused(`\`${basename(path)}\` is no lesson`, 'the name of a lesson ends in `.yaml` or `.yml`');
  await sweepParts(dirname(real));
  return desk.inTurn(real, async () => {
    const [state, kept] = [await readState(real), await desk.journal.find(real)];
    if (state?.ok === false) return state;
    if (state === undefined && kept === undefined) return refused(`there is no file \`${path}\``);
    const text = state?.text ?? '';
    const isUnsaved = kept !== undefined && (state === undefined || kept.text !== text);
    desk.watcher.know(real, state?.stamp);
    if (state !== undefined) await desk.recent.add({ path: real, title: lessonTitle(text, real) });
    return granted({
      path: real,
      text,
      ...(state === undefined ? {} : { stamp: state.stamp }),
      ...(isUnsaved
        ? {
            unsaved: {
              text: kept.text,
              ...(kept.base === undefined ? {} : { base: kept.base }),
              ...(kept.baseText === undefined ? {} : { baseText: kept.baseText }),
            },
          }
        : {}),
    });
  });
}
