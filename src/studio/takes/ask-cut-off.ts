import type { Bridge } from '../../bridge/index.js';
import { askUser } from '../ask-user.js';
import type { Tell } from '../notice.js';
import { problemWords } from '../problem-words.js';
import { inSeconds } from './seconds.js';

/**
 * Asks about every recording of a lesson that was cut off when its window died.
 * @param isThere whether the lesson is still the one in the window
 * @param tell hears what became of them
 * @returns whether one was kept
 */
export async function askCutOff(
  bridge: Bridge,
  path: string,
  isThere: () => boolean,
  tell: Tell,
): Promise<boolean> {
  const found = await bridge.ask('cutOff', { path });
  if (!found.ok) return false;
  let isKept = false;
  for (const { tape, id, words, seconds } of found.value.tapes) {
    if (!isThere()) return isKept;
    const answer = await askUser(
      'A recording was cut off',
      [
        `When the window closed unexpectedly, ${inSeconds(seconds)} of ${id} were recorded: “${words.trim()}”`,
      ],
      [
        ['drop', 'Drop it'],
        ['keep', 'Keep it as a take'],
        ['later', 'Decide later'],
      ],
    );
    if (answer === 'drop') await bridge.ask('dropTape', { path, tape });
    if (answer !== 'keep') continue;
    const kept = await bridge.ask('keepTape', { path, tape });
    if (kept.ok) isKept = true;
    tell(
      kept.ok
        ? `Recording ${String(kept.value.recording)} is kept and speaks ${id} now; Narration undoes it.`
        : problemWords(kept.problem),
      kept.ok ? 'news' : 'fault',
    );
  }
  return isKept;
}
