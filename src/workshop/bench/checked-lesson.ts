import { basename } from 'node:path';
import { placeOf, sourceText } from '../../diagnostics/index.js';
import type { Diagnostic } from '../../diagnostics/index.js';
import type { Analysis } from '../../harmony/index.js';
import type { Lesson } from '../../lesson/index.js';
import type { LessonReport } from '../../output/index.js';
import { refused } from '../answer.js';
import type { Refusal } from '../answer.js';
import { checkLessonText } from '../reading/check-lesson.js';
import { scoreLibrary } from '../reading/score-library.js';

/** A lesson out of which a page can be made. */
export interface SoundLesson {
  readonly ok: true;
  readonly report: LessonReport;
  readonly lesson: Lesson;
  readonly analysis: Analysis;
  readonly versions: ReadonlyMap<string, Analysis>;
}

function firstError(report: LessonReport): Diagnostic | undefined {
  return report.diagnostics.find(({ severity }) => severity === 'error');
}

function inWords({ message, span, code }: Diagnostic): string {
  if (span === undefined) return `${message} (${code})`;
  const { line } = placeOf(span.source, span.start);
  return `${basename(span.source.name)}, line ${String(line)}: ${message} (${code})`;
}

/** Reads and checks a lesson's text; refused where it has errors. A claim that fails is no error: the page is a draft then. */
export async function soundLesson(path: string, text: string): Promise<SoundLesson | Refusal> {
  const { report, lesson, analysis, versions } = await checkLessonText(
    sourceText(path, text),
    path,
    scoreLibrary(false),
  );
  const error = firstError(report);
  if (error !== undefined) return refused('the lesson has errors, so there is no page of it', inWords(error));
  if (lesson === undefined || analysis === undefined)
    return refused('the lesson has no music yet, so there is no page of it');
  return { ok: true, report, lesson, analysis, versions };
}
