import { mkdir, rm } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { Answer, KnownTake } from '../../bridge/index.js';
import { sourceText } from '../../diagnostics/index.js';
import { readLesson } from '../../lesson/index.js';
import { paragraphsOf, readWav, takesIn } from '../../sound/index.js';
import type { Takes } from '../../sound/index.js';
import { spokenTexts } from '../../timeline/index.js';
import { granted, refused, refusedBySystem } from '../answer.js';
import { replaceFile } from '../files/replace-file.js';
import type { JobResults, Jobs } from './jobs.js';
import { asideIn, takeFiles } from './take-files.js';
import { takesFolder } from './lesson-paths.js';

/** Recordings that a retake has replaced, and those that were taken back. */
const former = (takes: string): string => join(takes, 'former');
const removed = (takes: string): string => join(takes, 'removed');

async function knownTake(
  takes: Takes,
  folder: string,
  id: string,
  paragraph: number | undefined,
  words: string,
): Promise<readonly KnownTake[]> {
  const found = await takes.find(id, paragraph, words);
  if (found === undefined) return [];
  const own = paragraph === undefined ? id : `${id}-${String(paragraph)}`;
  const known = {
    id: own,
    file: basename(found.file),
    hasFormer: await asideIn(former(folder)).has(own),
  };
  if (found.kind === 'unreadable') return [{ ...known, seconds: 0, stale: false, trouble: found.reason }];
  const { samples, sampleRate } = found.sound;
  return [{ ...known, seconds: samples.length / sampleRate, stale: found.stale }];
}

/** The recordings of a lesson, in the order of its texts. */
export async function takesJob({ path, text }: Jobs['takes']): Promise<Answer<JobResults['takes']>> {
  const folder = takesFolder(path);
  const { value: lesson } = readLesson(sourceText(path, text));
  const takes = await takesIn(folder);
  const known: KnownTake[] = [];
  for (const { id, text: words } of lesson === undefined ? [] : spokenTexts(lesson)) {
    known.push(...(await knownTake(takes, folder, id, undefined, words)));
    for (const [index, paragraph] of paragraphsOf(words).entries())
      known.push(...(await knownTake(takes, folder, id, index + 1, paragraph.words)));
  }
  return granted({ folder, takes: known });
}

/** Keeps a recording as the take of a text, and writes down which words it was made for. */
export async function saveTakeJob({
  path,
  id,
  words,
  wav,
}: Jobs['save-take']): Promise<Answer<JobResults['save-take']>> {
  try {
    if (readWav(wav).samples.length === 0) return refused('the recording is empty');
  } catch (error) {
    if (error instanceof RangeError) return refused(`the recording cannot be used: ${error.message}`);
    throw error;
  }
  const folder = takesFolder(path);
  const file = `${id}.wav`;
  try {
    await mkdir(folder, { recursive: true });
    const replaced = await takeFiles(folder, id);
    for (const name of replaced) await asideIn(former(folder)).keep(id, join(folder, name));
    await replaceFile(join(folder, file), wav);
    for (const name of replaced) if (name !== file) await rm(join(folder, name), { force: true });
    const [, text = id, paragraph] = /^(.+?)(?:-(\d+))?$/u.exec(id) ?? [];
    const takes = await takesIn(folder);
    await takes.find(text, paragraph === undefined ? undefined : Number(paragraph), words);
    await takes.remember();
    return granted({ file });
  } catch (error) {
    return refusedBySystem(
      error,
      'the recording was not kept',
      'it is still in the window; make room or mend the permissions and keep it again',
    );
  }
}

/** Takes the recording of a text back: the one before returns, where there is one. */
export async function undoTakeJob({ path, id }: Jobs['undo-take']): Promise<Answer<JobResults['undo-take']>> {
  const folder = takesFolder(path);
  try {
    const current = await takeFiles(folder, id);
    for (const name of current) await asideIn(removed(folder)).keep(id, join(folder, name));
    const isBack = await asideIn(former(folder)).bringBack(id, folder);
    for (const name of current)
      if (!isBack || name !== `${id}.wav`) await rm(join(folder, name), { force: true });
    if (current.length === 0 && !isBack) return refused('there is no recording of this text');
    return granted({});
  } catch (error) {
    return refusedBySystem(error, 'the recording was not taken back');
  }
}
