import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Answer } from '../../bridge/index.js';
import { clockTime, counted, summarize, writeWhole } from '../../output/index.js';
import { defaultLoudness, makeShelf, mixLesson, writeAudio } from '../../sound/index.js';
import type { Shelf, Takes } from '../../sound/index.js';
import { granted, refused, refusedBySystem, systemCode } from '../answer.js';
import { systemWords } from '../reading/read-source.js';
import { alsoWords, readAlso } from './also.js';
import type { Also } from './also.js';
import { soundLesson } from './checked-lesson.js';
import type { SoundLesson } from './checked-lesson.js';
import type { JobResults, Jobs, Progress } from './jobs.js';
import { nameOf } from './lesson-paths.js';
import { makeWalkthrough } from './walkthrough.js';

/** Writes everything that was asked for into an empty folder. */
export async function buildJob(
  job: Jobs['build'],
  onProgress: (progress: Progress) => void,
): Promise<Answer<JobResults['build']>> {
  const wanted = readAlso(job.also.join(','));
  if ('unknown' in wanted)
    return refused(`nothing is called \`${wanted.unknown}\``, `words: ${alsoWords.join(', ')}, all`);
  const checked = await soundLesson(job.path, job.text);
  if (!checked.ok) return checked;
  // The speech of a long lesson need not fit into memory.
  const shelf = makeShelf();
  try {
    return await writeAll(job, wanted, checked, shelf, onProgress);
  } finally {
    await shelf.clear();
  }
}

async function writeAll(
  { path, speech, into }: Jobs['build'],
  { companions, sounds }: Also,
  checked: SoundLesson,
  shelf: Shelf,
  onProgress: (progress: Progress) => void,
): Promise<Answer<JobResults['build']>> {
  const {
    files,
    timeline,
    speech: spoken,
    instrumentation,
    takes,
    cache,
  } = await makeWalkthrough(path, speech, checked, { companions, shelf }, doing => {
    onProgress({ doing });
  });
  try {
    await writeWhole(into, files);
    if (sounds.length > 0)
      await writeAudio(
        mixLesson(timeline, spoken, { loudness: defaultLoudness, instrumentation, cache }),
        Object.fromEntries(sounds.map(kind => [kind, join(into, `${nameOf(path)}.${kind}`)])),
        seconds => {
          onProgress({
            doing: `mixing ${clockTime(seconds)} of ${clockTime(timeline.seconds)}`,
            share: Math.min(1, seconds / timeline.seconds),
          });
        },
        timeline.seconds,
      );
    await cache.forgetUnused();
    return granted({
      names: await readdir(into),
      left: [...failingClaims(checked), ...(await notedTakes(takes))],
    });
  } catch (error) {
    return refusedBySystem(error, 'the files could not be written');
  }
}

/** Students should not get the page of a lesson that contradicts its notes; its author is told. */
function failingClaims({ report }: SoundLesson): readonly string[] {
  const { fails } = summarize([report]);
  return fails === 0
    ? []
    : [`the page is marked as a draft, because ${counted(fails, 'claim')} ${fails === 1 ? 'fails' : 'fail'}`];
}

/** Writes down which words each take speaks; what was left undone is told, and the files are whole all the same. */
async function notedTakes(takes: Takes): Promise<readonly string[]> {
  try {
    await takes.remember();
    return [];
  } catch (error) {
    const why = systemWords(systemCode(error));
    return [
      `what each take was made for is not noted, because \`takes/takes.json\` cannot be written: ${why}`,
    ];
  }
}
