import { basename } from 'node:path';
import type { Answer, Answers, Payload } from '../../bridge/index.js';
import { granted, refused, refusedBySystem } from '../answer.js';
import type { Refusal } from '../answer.js';
import { isLessonName } from './browse.js';
import type { Desk } from './desk.js';
import { readState, stampOf } from './file-state.js';
import type { FileState } from './file-state.js';
import { lessonTitle } from './lesson-title.js';
import { outOfReach } from './reach.js';
import { replaceFile } from './replace-file.js';

type Saved = Answer<Answers['save']>;

/**
 * Writes a lesson whole, and only over the state that its text grew from: where another program has written the file meanwhile, nothing
 * is replaced. A file that was removed is written anew.
 */
export async function saveLesson({ path, text, base }: Payload<'save'>, desk: Desk): Promise<Saved> {
  const real = await desk.reach.within(path);
  if (real === undefined) return outOfReach(path);
  if (!isLessonName(real))
    return refused(
      `a lesson cannot be saved as \`${basename(path)}\``,
      'choose a name that ends in `.yaml` or `.yml`',
    );
  return desk.inTurn(real, () => saveInTurn(real, text, base, desk));
}

async function saveInTurn(path: string, text: string, base: string | undefined, desk: Desk): Promise<Saved> {
  const bytes = Buffer.from(text, 'utf8');
  const stamp = stampOf(bytes);
  const isInTheWay = (state: FileState): boolean => state.stamp !== base && state.stamp !== stamp;
  // Whoever kills the program in the middle of this finds the text again.
  const kept = await desk.journal.keep({ path, text, ...(base === undefined ? {} : { base }) }).then(
    () => true,
    () => false,
  );
  let found: FileState | Refusal | undefined = await readState(path);
  let backup: string | undefined;
  try {
    if (found?.ok !== false && (found === undefined || !isInTheWay(found)))
      await replaceFile(path, bytes, async () => {
        found = await readState(path);
        if (found?.ok === false || (found?.ok === true && isInTheWay(found))) return false;
        if (found?.ok === true && found.stamp !== stamp) backup = await desk.backups.keep(path, found.bytes);
        return true;
      });
  } catch (error) {
    return refusedBySystem(
      error,
      `\`${basename(path)}\` was not saved`,
      kept
        ? 'what stood there is as it was, and your text is kept until you save it; try again or save it elsewhere'
        : 'what stood there is as it was, and your text is in this window only; save it elsewhere',
    );
  }
  if (found?.ok === false) return found;
  if (found !== undefined && isInTheWay(found)) {
    desk.watcher.know(path, found.stamp);
    return granted({ kind: 'changed', text: found.text, stamp: found.stamp });
  }
  desk.watcher.know(path, stamp);
  await desk.journal.forget(path).catch(() => undefined);
  await desk.recent.add({ path, title: lessonTitle(text, path) });
  return granted({ kind: 'saved', stamp, ...(backup === undefined ? {} : { backup }) });
}
