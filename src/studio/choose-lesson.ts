import type { Answers, Bridge } from '../bridge/index.js';
import { askUser } from './ask-user.js';
import { fileName } from './file-name.js';
import type { Tell } from './notice.js';
import { problemWords } from './problem-words.js';

type Known = Answers['begin']['recent'][number];

const named = ({ path, title }: Known): string => (title === '' ? path : `${title} (${fileName(path)})`);

/**
 * Offers the lessons with unsaved work, a first draft among them, and those that were opened lately.
 * @returns the path of the one that is chosen; `undefined` where there is none to choose from or none was chosen
 */
export async function chooseLesson(bridge: Bridge, tell: Tell): Promise<string | undefined> {
  const answer = await bridge.ask('begin', {});
  if (!answer.ok) {
    tell(problemWords(answer.problem), 'fault');
    return undefined;
  }
  const { unsaved, recent } = answer.value;
  const withWork = new Set(unsaved.map(({ path }) => path));
  const offered = [
    ...unsaved.map(lesson => [lesson.path, `${named(lesson)}, with unsaved work`] as const),
    ...recent.filter(({ path }) => !withWork.has(path)).map(lesson => [lesson.path, named(lesson)] as const),
  ];
  if (offered.length === 0) return undefined;
  const chosen = await askUser('Which lesson?', [], [...offered, ['', 'None of these']], offered[0]?.[0]);
  return chosen === '' ? undefined : chosen;
}
