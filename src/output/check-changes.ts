import { normalize } from 'node:path';
import { z } from 'zod';
import type { VerdictWord } from '../claims/index.js';
import type { Diagnostic } from '../diagnostics/index.js';
import { isUnjudged } from '../lesson/index.js';
import type { LessonReport, ReportedClaim } from './check-report.js';
import { opinionMessage, shownFindings, withoutClaimMessage } from './prose-findings.js';

/** A claim as it was judged earlier. */
export interface EarlierClaim {
  /** Index of its step. */
  readonly step: number;
  readonly text: string;
  readonly verdict: VerdictWord;
  readonly code: string;
  readonly reason: string;
}

/** A finding about a lesson, or about words of its narration, as it was made earlier. */
export interface EarlierFinding {
  readonly code: string;
  readonly message: string;
}

interface EarlierLesson {
  readonly file: string;
  readonly claims: readonly EarlierClaim[];
  readonly findings: readonly EarlierFinding[];
}

export interface EarlierReport {
  readonly lessons: readonly EarlierLesson[];
}

/** A verdict, or that there is none. */
export type OutcomeWord = VerdictWord | 'not checked';

/** A verdict that is not what it was. */
export interface Change {
  readonly file: string;
  readonly claim: ReportedClaim;
  readonly before: OutcomeWord;
  readonly now: OutcomeWord;
}

/** What has changed since an earlier report. */
export interface Changes {
  /** What was compared with: a revision, or the name of a report. */
  readonly since: string;
  readonly changed: readonly Change[];
  /** Claims that were not there, and claims that are there no longer. */
  readonly added: readonly ReportedClaim[];
  readonly gone: readonly Gone<EarlierClaim>[];
  /** The same of findings; where several of one lesson say the same, the first ones were there. */
  readonly newFindings: readonly Diagnostic[];
  readonly goneFindings: readonly Gone<EarlierFinding>[];
}

/** What is found no longer, with the file of its lesson as it is named now. */
export interface Gone<T> {
  readonly file: string;
  readonly was: T;
}

const place = z.object({ line: z.number().optional(), column: z.number().optional() });

/** The JSON contract of `check`, as far as verdicts go; a newer program may have written more. */
const reportShape = z.object({
  barwise: z.literal(1),
  lessons: z.array(
    z.object({
      file: z.string(),
      claims: z.array(
        z.object({
          path: z.string(),
          text: z.string(),
          verdict: z.enum(['holds', 'arguable', 'undecided', 'fails']),
          code: z.string(),
          reason: z.string(),
        }),
      ),
      diagnostics: z.array(place.extend({ code: z.string(), message: z.string() })),
      narration: z.object({
        unchecked: z.array(z.object({ words: z.string(), place })),
        opinions: z.array(z.object({ words: z.string() })),
      }),
    }),
  ),
});

/** Reads a report that `check --format json` wrote; `undefined` where it is none. */
export function readEarlierReport(json: string): EarlierReport | undefined {
  let data: unknown;
  try {
    data = JSON.parse(json);
  } catch {
    return undefined;
  }
  const read = reportShape.safeParse(data);
  if (!read.success) return undefined;
  return { lessons: read.data.lessons.map(lessonThen) };
}

function lessonThen({
  file,
  claims,
  diagnostics,
  narration,
}: z.infer<typeof reportShape>['lessons'][number]): EarlierLesson {
  const at = ({ line, column }: z.infer<typeof place>): string => `${String(line)}:${String(column)}`;
  // Words that contradict a claim have a finding of their own.
  const told = new Set(diagnostics.flatMap(each => (each.code === 'L0504' ? [at(each)] : [])));
  const unchecked = narration.unchecked.filter(each => !told.has(at(each.place)));
  return {
    file,
    claims: claims.map(({ path, ...claim }) => ({
      step: Number(/^steps\/(\d+)/.exec(path)?.[1] ?? 0),
      ...claim,
    })),
    findings: [
      ...diagnostics.map(({ code, message }) => ({ code, message })),
      ...unchecked.map(({ words }) => ({ code: 'L0505', message: withoutClaimMessage(words) })),
      ...narration.opinions.map(({ words }) => ({ code: 'L0506', message: opinionMessage(words) })),
    ],
  };
}

/** A report of now as one to compare later ones with. */
export const earlierLesson = (lesson: LessonReport): EarlierLesson => ({
  file: lesson.file,
  claims: lesson.claims.map(({ entry, verdict: { verdict, code, reason } }) => ({
    step: entry.step,
    text: entry.text,
    verdict,
    code,
    reason,
  })),
  findings: shownFindings(lesson, true).map(({ code, message }) => ({ code, message })),
});

/**
 * The verdicts that changed. A claim is found again by its words: first in the same step, then anywhere in its lesson, the first of equal
 * ones first, so that lines and steps may have moved.
 */
export function changesSince(
  since: string,
  earlier: EarlierReport,
  lessons: readonly LessonReport[],
): Changes {
  const changed: Change[] = [];
  const added: ReportedClaim[] = [];
  const gone: Gone<EarlierClaim>[] = [];
  const newFindings: Diagnostic[] = [];
  const goneFindings: Gone<EarlierFinding>[] = [];
  for (const lesson of lessons) {
    const { file, claims } = lesson;
    const before = lessonOf(earlier, file, lessons.length);
    const left = [...(before?.claims ?? [])];
    const inStep = claims.map(({ entry }) =>
      take(left, ({ step, text }) => step === entry.step && text === entry.text),
    );
    claims.forEach((claim, index) => {
      const was = inStep[index] ?? take(left, ({ text }) => text === claim.entry.text);
      if (was === undefined) added.push(claim);
      else if (outcomeWord(was) !== outcomeWord(claim.verdict))
        changed.push({ file, claim, before: outcomeWord(was), now: outcomeWord(claim.verdict) });
    });
    gone.push(...left.map(was => ({ file, was })));
    const findings = [...(before?.findings ?? [])];
    for (const finding of shownFindings(lesson, true))
      if (
        take(findings, each => each.code === finding.code && each.message === finding.message) === undefined
      )
        newFindings.push(finding);
    goneFindings.push(...findings.map(was => ({ file, was })));
  }
  return { since, changed, added, gone, newFindings, goneFindings };
}

/** New claims that do not hold: whoever compares wants to know which. */
export const newTroubles = ({ added }: Changes): readonly ReportedClaim[] =>
  added.filter(
    ({ verdict, accepted }) =>
      verdict.verdict !== 'holds' && accepted === undefined && !isUnjudged(verdict.code),
  );

/** Takes the first that matches out of a list. */
function take<T>(list: T[], matches: (each: T) => boolean): T | undefined {
  const at = list.findIndex(matches);
  return at < 0 ? undefined : list.splice(at, 1)[0];
}

const outcomeWord = ({
  verdict,
  code,
}: {
  readonly verdict: VerdictWord;
  readonly code: string;
}): OutcomeWord => (isUnjudged(code) ? 'not checked' : verdict);

/** `holds → fails`. */
export const changeInWords = ({ before, now }: Change): string => `${before} → ${now}`;

/** `since HEAD~1: holds → fails` of a claim whose verdict has changed. */
export function sinceInWords(changes: Changes | undefined, claim: ReportedClaim): string | undefined {
  const change = changes?.changed.find(each => each.claim === claim);
  return changes === undefined || change === undefined
    ? undefined
    : `since ${changes.since}: ${changeInWords(change)}`;
}

/** The earlier state of a lesson: the same path however it was typed; of one lesson and one lesson the other. */
function lessonOf({ lessons }: EarlierReport, file: string, count: number): EarlierLesson | undefined {
  const same = lessons.find(lesson => normalize(lesson.file) === normalize(file));
  return same ?? (lessons.length === 1 && count === 1 ? lessons[0] : undefined);
}
