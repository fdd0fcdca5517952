import type { VerdictWord } from '../claims/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import type { CheckedClaim } from '../lesson/index.js';

/** What `check` found in one lesson. */
export interface LessonReport {
  /** The path as given. */
  readonly file: string;
  /** Findings about the lesson and its scores, in the order of file and place. */
  readonly diagnostics: readonly Diagnostic[];
  /** In the order of the source. */
  readonly claims: readonly CheckedClaim[];
}

/** What `check` found in all lessons; every output of `check` is made from it. */
export interface CheckReport {
  readonly lessons: readonly LessonReport[];
}

export interface CheckSummary extends Readonly<Record<VerdictWord, number>> {
  readonly lessons: number;
  readonly claims: number;
  /** Claims whose verdict the author set aside; counted here and not under their verdict. */
  readonly accepted: number;
  readonly errors: number;
  readonly warnings: number;
}

/** Counts over any number of lessons. */
export function summarize(lessons: readonly LessonReport[]): CheckSummary {
  const claims = lessons.flatMap(lesson => lesson.claims);
  const diagnostics = lessons.flatMap(lesson => lesson.diagnostics);
  const count = (word: VerdictWord): number =>
    claims.filter(({ verdict, accepted }) => accepted === undefined && verdict.verdict === word).length;
  return {
    lessons: lessons.length,
    claims: claims.length,
    holds: count('holds'),
    arguable: count('arguable'),
    undecided: count('undecided'),
    fails: count('fails'),
    accepted: claims.filter(({ accepted }) => accepted !== undefined).length,
    errors: diagnostics.filter(({ severity }) => severity === 'error').length,
    warnings: diagnostics.filter(({ severity }) => severity === 'warning').length,
  };
}

/** Whether a report is one to be glad of: nothing fails and no lesson has errors; `strict` also wants every claim decided. */
export function passes(report: CheckReport, strict: boolean): boolean {
  const { fails, arguable, undecided, errors } = summarize(report.lessons);
  return fails + errors === 0 && (!strict || arguable + undecided === 0);
}
