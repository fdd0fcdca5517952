import { readFile, stat } from 'node:fs/promises';
import { mostSound } from '../../bridge/index.js';
import type { Answer, Answers, Payload } from '../../bridge/index.js';
import { readRecording, recordingEnds } from '../../sound/index.js';
import { granted, refused, refusedBySystem } from '../answer.js';
import { takesFolder } from '../bench/lesson-paths.js';
import { takeStore } from './take-store.js';

/** One recording of a text, whole. */
export async function readTake({
  path,
  id,
  recording,
}: Payload<'readTake'>): Promise<Answer<Answers['readTake']>> {
  try {
    const { recordings, current } = await takeStore(takesFolder(path), id).look();
    const file =
      recording === 0
        ? current?.recording === 0
          ? current.file
          : undefined
        : recordings.find(({ number }) => number === recording)?.file;
    if (file === undefined) return refused(`there is no recording ${String(recording)} of this text`);
    if ((await stat(file)).size > mostSound) return refused('the recording is too long to be shown');
    const bytes = await readFile(file);
    const { start, end } = recordingEnds(await readRecording(bytes));
    return granted({ sound: new Uint8Array(bytes), ends: { from: start, to: end } });
  } catch (error) {
    if (error instanceof RangeError) return refused(`the recording cannot be read: ${error.message}`);
    return refusedBySystem(error, 'the recording cannot be read');
  }
}
