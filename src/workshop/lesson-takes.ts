import { readFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { mostSound } from '../bridge/index.js';
import type { Answer, Answers, Payload } from '../bridge/index.js';
import { granted, refused, refusedBySystem } from './answer.js';
import { takesFolder } from './bench/lesson-paths.js';

/** One recording of a lesson as it lies in its folder. */
export async function readTake({ path, file }: Payload<'readTake'>): Promise<Answer<Answers['readTake']>> {
  if (file !== basename(file) || !/\.wav$/iu.test(file))
    return refused(`\`${file}\` is no recording of the lesson`, 'recordings are read as WAV');
  try {
    const bytes = await readFile(join(takesFolder(path), file));
    if (bytes.length > mostSound) return refused(`\`${file}\` is too long`);
    return granted({ wav: new Uint8Array(bytes) });
  } catch (error) {
    return refusedBySystem(error, `\`${file}\` cannot be read`);
  }
}
