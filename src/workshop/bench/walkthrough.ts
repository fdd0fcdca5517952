import { walkthroughFiles } from '../../output/index.js';
import type { BuiltWalkthrough, WalkthroughFilesInput } from '../../output/index.js';
import { embeddedVoice, folderCache, takesIn } from '../../sound/index.js';
import type { Shelf, SoundCache, Takes } from '../../sound/index.js';
import type { SoundLesson } from './checked-lesson.js';
import { nameOf, takesFolder } from './lesson-paths.js';

const voice = embeddedVoice();

export interface MadeWalkthrough extends BuiltWalkthrough {
  readonly takes: Takes;
  readonly cache: SoundCache;
}

type Wanted = Pick<WalkthroughFilesInput, 'companions' | 'speechAs'> & {
  /** Where speech lies until it is asked for; in memory where absent. */
  readonly shelf?: Shelf;
};

/** Makes the files of a walkthrough with the educator's takes and the built-in voice for the rest. */
export async function makeWalkthrough(
  path: string,
  speech: string,
  { report, lesson, analysis, versions }: SoundLesson,
  { companions = [], speechAs = 'mp3', shelf }: Wanted,
  onProgress: (doing: string) => void,
): Promise<MadeWalkthrough> {
  const takes = await takesIn(takesFolder(path));
  const cache = folderCache(speech);
  const { value } = await walkthroughFiles({
    name: nameOf(path),
    lesson,
    analysis,
    versions,
    claims: report.claims,
    speaking: { voice, takes, cache, ...(shelf === undefined ? {} : { shelf }) },
    companions,
    speechAs,
    onProgress,
  });
  return { ...value, takes, cache };
}
