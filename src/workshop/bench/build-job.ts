import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { Answer } from '../../bridge/index.js';
import { clockTime, writeWhole } from '../../output/index.js';
import { defaultLoudness, mixLesson, writeAudio } from '../../sound/index.js';
import { granted, refused, refusedBySystem } from '../answer.js';
import { alsoWords, readAlso } from './also.js';
import { soundLesson } from './checked-lesson.js';
import type { JobResults, Jobs, Progress } from './jobs.js';
import { nameOf } from './lesson-paths.js';
import { makeWalkthrough } from './walkthrough.js';

/** Writes everything that was asked for into an empty folder. */
export async function buildJob(
  { path, text, speech, into, also }: Jobs['build'],
  onProgress: (progress: Progress) => void,
): Promise<Answer<JobResults['build']>> {
  const wanted = readAlso(also.join(','));
  if ('unknown' in wanted)
    return refused(`nothing is called \`${wanted.unknown}\``, `words: ${alsoWords.join(', ')}, all`);
  const checked = await soundLesson(path, text);
  if (!checked.ok) return checked;
  const {
    files,
    timeline,
    speech: spoken,
    instrumentation,
    takes,
    cache,
  } = await makeWalkthrough(path, speech, checked, { companions: wanted.companions }, doing => {
    onProgress({ doing });
  });
  try {
    await writeWhole(into, files);
    if (wanted.sounds.length > 0)
      await writeAudio(
        mixLesson(timeline, spoken, { loudness: defaultLoudness, instrumentation }),
        Object.fromEntries(wanted.sounds.map(kind => [kind, join(into, `${nameOf(path)}.${kind}`)])),
        seconds => {
          onProgress({
            doing: `mixing ${clockTime(seconds)} of ${clockTime(timeline.seconds)}`,
            share: Math.min(1, seconds / timeline.seconds),
          });
        },
        timeline.seconds,
      );
    await takes.remember();
    await cache.forgetUnused();
    return granted({ names: await readdir(into) });
  } catch (error) {
    return refusedBySystem(error, 'the files could not be written');
  }
}
