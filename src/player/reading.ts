import { sourceText } from '../diagnostics/index.js';
import { analyse, type Analysis } from '../harmony/index.js';
import { readScore } from '../score/index.js';
import type { PageData, PageScore } from '../timeline/index.js';

const known = new WeakMap<PageScore, Analysis>();
const judged = new WeakMap<PageScore, Analysis>();

/**
 * The lesson's own score, read from its source as the program that made the page read it, with what the engine found in it then. Quick;
 * for words and sounds.
 */
export function readingOf(data: PageData): Analysis | undefined {
  const [score] = data.scores;
  if (score === undefined) return undefined;
  const before = known.get(score);
  if (before !== undefined) return before;
  const reading = { score: readScore(sourceText(score.path, score.abc)).value, ...score.reading };
  known.set(score, reading);
  return reading;
}

/** The same, heard by the engine anew: claims are judged by more than what a reading keeps. Takes a good while the first time. */
export function hearingOf(data: PageData): Analysis | undefined {
  const [score] = data.scores;
  const reading = readingOf(data);
  if (score === undefined || reading === undefined) return undefined;
  const before = judged.get(score);
  if (before !== undefined) return before;
  const analysis = analyse(reading.score);
  judged.set(score, analysis);
  return analysis;
}
