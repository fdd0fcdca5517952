import { checkLessonText, emptyReport, readSource } from '../workshop/index.js';
import type { CheckedText, ScoreLibrary } from '../workshop/index.js';

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
  return { ...(await checkLessonText(value, file, library)), opened: true };
}
