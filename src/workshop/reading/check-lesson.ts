import { inReadingOrder } from '../../diagnostics/index.js';
import type { Diagnostic, SourceText } from '../../diagnostics/index.js';
import type { Analysis } from '../../harmony/index.js';
import { checkLesson, comparedVersions, playedVersions, readLesson } from '../../lesson/index.js';
import type { Lesson } from '../../lesson/index.js';
import { reportedClaim } from '../../output/index.js';
import type { LessonReport } from '../../output/index.js';
import type { ScoreLibrary } from './score-library.js';

/** A lesson that was read and checked, with everything that a build needs. */
export interface CheckedText {
  readonly report: LessonReport;
  readonly lesson?: Lesson;
  readonly analysis?: Analysis;
  /** Analyses of the other versions that the lesson plays, by their path in the lesson. */
  readonly versions: ReadonlyMap<string, Analysis>;
}

/** Nothing claimed, nothing said. */
export const emptyReport = { claims: [], prose: { checked: 0, unchecked: [], opinions: [] } } as const;

/**
 * Checks the text of a lesson against the scores beside it.
 * @param file where the lesson lies or will lie
 */
export async function checkLessonText(
  source: SourceText,
  file: string,
  library: ScoreLibrary,
): Promise<CheckedText> {
  const { value: lesson, diagnostics } = readLesson(source);
  if (lesson === undefined) return { report: { file, diagnostics, ...emptyReport }, versions: new Map() };

  const own = await library.loadBeside(file, lesson.score);
  const ofScores: Diagnostic[] = [...own.diagnostics];
  const played = playedVersions(lesson);
  const versions = new Map<string, Analysis>();
  for (const path of [...played, ...comparedVersions(lesson)]) {
    if (versions.has(path.value)) continue;
    const loaded = await library.loadBeside(file, path);
    ofScores.push(...loaded.diagnostics.filter(finding => !ofScores.includes(finding)));
    if (loaded.analysis !== undefined) versions.set(path.value, loaded.analysis);
  }
  const checked = checkLesson(lesson, { analysis: own.analysis, versions });
  return {
    report: {
      file,
      diagnostics: inReadingOrder([...diagnostics, ...checked.diagnostics, ...ofScores], file),
      claims: checked.value.claims.map(reportedClaim),
      prose: checked.value.prose,
    },
    lesson,
    versions: new Map([...versions].filter(([path]) => played.some(({ value }) => value === path))),
    ...(own.analysis === undefined ? {} : { analysis: own.analysis }),
  };
}
