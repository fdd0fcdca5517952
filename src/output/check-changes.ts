import { normalize } from 'node:path';
import { z } from 'zod';
import type { VerdictWord } from '../claims/index.js';
import type { LessonReport, ReportedClaim } from './check-report.js';

/** A claim as it was judged earlier. */
export interface EarlierClaim {
  /** Index of its step. */
  readonly step: number;
  readonly text: string;
  readonly verdict: VerdictWord;
}

export interface EarlierReport {
  readonly lessons: readonly { readonly file: string; readonly claims: readonly EarlierClaim[] }[];
}

/** A verdict that is not what it was. */
export interface Change {
  readonly file: string;
  readonly claim: ReportedClaim;
  readonly before: VerdictWord;
}

/** What has changed since an earlier report. */
export interface Changes {
  /** What was compared with: a revision, or the name of a report. */
  readonly since: string;
  readonly changed: readonly Change[];
  /** Claims that were not there, and claims that are there no longer. */
  readonly added: number;
  readonly gone: number;
}

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
        }),
      ),
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
  return {
    lessons: read.data.lessons.map(({ file, claims }) => ({
      file,
      claims: claims.map(({ path, text, verdict }) => ({
        step: Number(/^steps\/(\d+)/.exec(path)?.[1] ?? 0),
        text,
        verdict,
      })),
    })),
  };
}

/** A report of now as one to compare later ones with. */
export const earlierLesson = ({ file, claims }: LessonReport): EarlierReport['lessons'][number] => ({
  file,
  claims: claims.map(({ entry, verdict }) => ({
    step: entry.step,
    text: entry.text,
    verdict: verdict.verdict,
  })),
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
  let [added, gone] = [0, 0];
  for (const { file, claims } of lessons) {
    const left = [...(lessonOf(earlier, file, lessons.length)?.claims ?? [])];
    const take = (matches: (claim: EarlierClaim) => boolean): EarlierClaim | undefined => {
      const at = left.findIndex(matches);
      return at < 0 ? undefined : left.splice(at, 1)[0];
    };
    const inStep = claims.map(({ entry }) =>
      take(({ step, text }) => step === entry.step && text === entry.text),
    );
    claims.forEach((claim, index) => {
      const before = inStep[index] ?? take(({ text }) => text === claim.entry.text);
      if (before === undefined) added += 1;
      else if (before.verdict !== claim.verdict.verdict)
        changed.push({ file, claim, before: before.verdict });
    });
    gone += left.length;
  }
  return { since, changed, added, gone };
}

/** What a claim was before, where its verdict has changed. */
export const beforeOf = (changes: Changes | undefined, claim: ReportedClaim): VerdictWord | undefined =>
  changes?.changed.find(each => each.claim === claim)?.before;

/** The earlier state of a lesson: the same path however it was typed; of one lesson and one lesson the other. */
function lessonOf(
  { lessons }: EarlierReport,
  file: string,
  count: number,
): EarlierReport['lessons'][number] | undefined {
  const same = lessons.find(lesson => normalize(lesson.file) === normalize(file));
  return same ?? (lessons.length === 1 && count === 1 ? lessons[0] : undefined);
}
