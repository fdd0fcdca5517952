import { inReadingOrder } from '../diagnostics/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import type { Analysis } from '../harmony/index.js';
import { checkLesson, comparedVersions, readLesson } from '../lesson/index.js';
import type { Lesson } from '../lesson/index.js';
import { reportedClaim } from '../output/index.js';
import type { LessonReport } from '../output/index.js';
import { readSource } from './read-source.js';
import type { ScoreLibrary } from './score-library.js';

/** A lesson that was read and checked, with everything that a build needs. */
export interface CheckedLesson {
  readonly report: LessonReport;
  /** Whether the lesson's file itself could be opened. */
  readonly opened: boolean;
  readonly lesson?: Lesson;
  readonly analysis?: Analysis;
  /** Analyses of the other versions that the lesson plays, by their path in the lesson. */
  readonly versions: ReadonlyMap<string, Analysis>;
}

/** Reads a lesson and its scores and checks it. */
export async function checkLessonFile(file: string, library: ScoreLibrary): Promise<CheckedLesson> {
  const source = await readSource(file);
  const nothing = { claims: [], prose: { checked: 0, unchecked: [], opinions: [] } };
  const none = new Map<string, Analysis>();
  if (source.value === undefined) {
    const report = { file, diagnostics: source.diagnostics, ...nothing };
    return { report, opened: false, versions: none };
  }
  const { value: lesson, diagnostics } = readLesson(source.value);
  if (lesson === undefined)
    return { report: { file, diagnostics, ...nothing }, opened: true, versions: none };

  const own = await library.loadBeside(file, lesson.score);
  const ofScores: Diagnostic[] = [...own.diagnostics];
  const played = lesson.steps.flatMap(({ script }) =>
    script.flatMap(action => (action.kind === 'play' ? (action.score ?? []) : [])),
  );
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
    opened: true,
    lesson,
    versions: new Map([...versions].filter(([path]) => played.some(({ value }) => value === path))),
    ...(own.analysis === undefined ? {} : { analysis: own.analysis }),
  };
}
