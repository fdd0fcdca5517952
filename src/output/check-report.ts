import type { VerdictWord } from '../claims/index.js';
import type { Diagnostic, FrameOptions } from '../diagnostics/index.js';
import { isUnjudged } from '../lesson/index.js';
import type { CheckedClaim, Lesson, ProseCoverage } from '../lesson/index.js';
import type { Score } from '../score/index.js';
import type { Changes } from './check-changes.js';

/** A claim and its verdict as plain data, which can be sent from one process to another. */
export interface ReportedClaim extends Omit<CheckedClaim, 'claim'> {
  /** The claim as understood, in the form that the reference recommends; absent where it could not be read. */
  readonly sentence?: string;
}

/** A checked claim without what only the checker needs. */
export const reportedClaim = ({ claim, ...rest }: CheckedClaim): ReportedClaim => ({
  ...rest,
  ...(claim === undefined ? {} : { sentence: claim.print() }),
});

/** What `check` found in one lesson. */
export interface LessonReport {
  /** The path as given. */
  readonly file: string;
  /** Findings about the lesson and its scores, in the order of file and place. */
  readonly diagnostics: readonly Diagnostic[];
  /** In the order of the source. */
  readonly claims: readonly ReportedClaim[];
  /** What the narration says without a claim behind it. */
  readonly prose: ProseCoverage;
  /** The lesson and its score, for reports that show them; absent where the lesson could not be read. */
  readonly subject?: Subject;
}

/** What was checked, as plain data. */
export interface Subject {
  readonly lesson: Lesson;
  readonly score?: Score;
  /** SHA-256 of the bytes of each file, in hexadecimal digits. */
  readonly sha256: { readonly lesson: string; readonly score?: string };
}

/** What `check` found in all lessons; every output of `check` is made from it. */
export interface CheckReport {
  readonly lessons: readonly LessonReport[];
  /** What has changed since an earlier state, where one was named. */
  readonly changes?: Changes;
}

/** How a report is shown. */
export interface CheckOptions extends FrameOptions {
  /** The claims that hold as well. */
  readonly all: boolean;
  /** The words of the narration that no claim checks as well. */
  readonly unchecked?: boolean;
  /** Whether a claim that is arguable or undecided counts as a fault. */
  readonly strict?: boolean;
  /** Version of the program, for formats that name it. */
  readonly version?: string;
}

export interface CheckSummary extends Readonly<Record<VerdictWord, number>> {
  readonly lessons: number;
  readonly claims: number;
  /** Claims whose verdict the author set aside; counted here and not under their verdict. */
  readonly accepted: number;
  /** Claims that got no verdict: they could not be read, or a score that they speak of could not; a finding says why. */
  readonly unjudged: number;
  readonly errors: number;
  readonly warnings: number;
  /** Statements of the narration with a claim behind them, without one, and words of opinion. */
  readonly checkedStatements: number;
  readonly uncheckedStatements: number;
  readonly opinions: number;
}

/** The claims that a report shows: those that do not hold, or all. One without a verdict has a finding. */
export function shownClaims({ claims }: LessonReport, all: boolean): readonly ReportedClaim[] {
  return claims.filter(({ verdict }) => !isUnjudged(verdict.code) && (all || verdict.verdict !== 'holds'));
}

/** Counts over any number of lessons. */
export function summarize(lessons: readonly LessonReport[]): CheckSummary {
  const claims = lessons.flatMap(lesson => lesson.claims);
  const judged = claims.filter(({ verdict }) => !isUnjudged(verdict.code));
  const diagnostics = lessons.flatMap(lesson => lesson.diagnostics);
  const count = (word: VerdictWord): number =>
    judged.filter(({ verdict, accepted }) => accepted === undefined && verdict.verdict === word).length;
  return {
    lessons: lessons.length,
    claims: claims.length,
    holds: count('holds'),
    arguable: count('arguable'),
    undecided: count('undecided'),
    fails: count('fails'),
    accepted: judged.filter(({ accepted }) => accepted !== undefined).length,
    unjudged: claims.length - judged.length,
    errors: diagnostics.filter(({ severity }) => severity === 'error').length,
    warnings: diagnostics.filter(({ severity }) => severity === 'warning').length,
    checkedStatements: sum(lessons, ({ prose }) => prose.checked),
    uncheckedStatements: sum(lessons, ({ prose }) => prose.unchecked.length),
    opinions: sum(lessons, ({ prose }) => prose.opinions.length),
  };
}

const sum = (lessons: readonly LessonReport[], count: (lesson: LessonReport) => number): number =>
  lessons.reduce((total, lesson) => total + count(lesson), 0);

/** Whether a report is one to be glad of: nothing fails and no lesson has errors; `strict` also wants every claim decided. */
export function passes(report: CheckReport, strict: boolean): boolean {
  const { fails, arguable, undecided, unjudged, errors } = summarize(report.lessons);
  return fails + errors === 0 && (!strict || arguable + undecided + unjudged === 0);
}
