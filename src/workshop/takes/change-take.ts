import { wavHeader } from '../../sound/index.js';
import type { Answer, Answers, Payload } from '../../bridge/index.js';
import { granted, refused, refusedBySystem } from '../answer.js';
import type { Refusal } from '../answer.js';
import { takesFolder } from '../bench/lesson-paths.js';
import { takeStore } from './take-store.js';
import type { TakeStore } from './take-store.js';

const storeOf = (path: string, id: string): TakeStore => takeStore(takesFolder(path), id);

/** Keeps a new recording, and lets it speak its text. */
export async function saveTake({
  path,
  id,
  words,
  pcm,
  sampleRate,
}: Payload<'saveTake'>): Promise<Answer<Answers['saveTake']>> {
  if (pcm.length === 0) return refused('the recording is empty');
  const wav = Buffer.concat([wavHeader(pcm.length / 2, 1, sampleRate), pcm]);
  try {
    return granted({ recording: await storeOf(path, id).add(wav, words) });
  } catch (error) {
    return refusedBySystem(
      error,
      'the recording was not kept',
      'it is still in the window; make room or mend the permissions and keep it again',
    );
  }
}

/** Lets one of the recordings, or the voice, speak a text. */
export async function useTake({
  path,
  id,
  recording,
  cut,
}: Payload<'useTake'>): Promise<Answer<Answers['useTake']>> {
  return changed('the take was not changed', async () => {
    const isUsed = await storeOf(path, id).use({ recording, cut });
    return isUsed ? granted({}) : refused(`there is no recording ${String(recording)} of this text`);
  });
}

/** Goes one step back. */
export async function undoTake({ path, id }: Payload<'undoTake'>): Promise<Answer<Answers['undoTake']>> {
  return changed('the take was not changed back', async () =>
    (await storeOf(path, id).undo()) ? granted({}) : refused('there is nothing to undo for this text'),
  );
}

async function changed(
  failure: string,
  act: () => Promise<Answer<Readonly<Record<string, never>>>>,
): Promise<Answer<Readonly<Record<string, never>>> | Refusal> {
  try {
    return await act();
  } catch (error) {
    if (error instanceof RangeError) return refused(`${failure}: ${error.message}`);
    return refusedBySystem(error, failure);
  }
}
