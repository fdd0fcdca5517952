import { dirname, resolve } from 'node:path';
import type { Subject } from '../output/index.js';
import { checkLessonText, emptyReport, readSource } from '../workshop/index.js';
import type { CheckedText, ScoreLibrary } from '../workshop/index.js';
import { fileHash } from './file-hash.js';

/** A lesson file that was read and checked. */
export interface CheckedLesson extends CheckedText {
  /** Whether the lesson's file itself could be opened. */
  readonly opened: boolean;
}

/** Reads a lesson and its scores and checks it. */
export async function checkLessonFile(file: string, library: ScoreLibrary): Promise<CheckedLesson> {
  const { value, diagnostics } = await readSource(file);
  if (value === undefined)
    return { report: { file, diagnostics, ...emptyReport }, opened: false, versions: new Map() };
  const checked = await checkLessonText(value, file, library);
  const subject = await subjectOf(file, checked);
  return { ...checked, report: { ...checked.report, ...subject }, opened: true };
}

async function subjectOf(
  file: string,
  { lesson, analysis }: CheckedText,
): Promise<{ readonly subject?: Subject }> {
  if (lesson === undefined) return {};
  const own = await fileHash(file);
  if (analysis === undefined) return { subject: { lesson, sha256: { lesson: own } } };
  const score = await fileHash(resolve(dirname(file), lesson.score.value));
  return { subject: { lesson, score: analysis.score, sha256: { lesson: own, score } } };
}
