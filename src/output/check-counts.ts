import type { Changes } from './check-changes.js';
import type { CheckReport, CheckSummary, LessonReport } from './check-report.js';
import { summarize } from './check-report.js';
import { counted } from './counted.js';

/** What the counts of a report are about: its one lesson, or how many there are. */
export function subjectOf({ lessons }: CheckReport): string {
  return lessons.length > 1 ? `${lessons.length} lessons` : (lessons[0]?.file ?? 'no lesson');
}

/** How urgently somebody has to look at a lesson. */
export type Urgency = 'good' | 'doubtful' | 'bad';

export function urgencyOf({ fails, errors, arguable, undecided, unjudged, warnings }: CheckSummary): Urgency {
  if (fails + errors > 0) return 'bad';
  return arguable + undecided + unjudged + warnings > 0 ? 'doubtful' : 'good';
}

/** What is counted in one line: a lesson, or several of which there is nothing to say. */
export interface Counts {
  readonly subject: string;
  readonly summary: CheckSummary;
}

/** More lessons than this are not all named. */
const mostNamed = 12;

/**
 * A line for each of several lessons, those that want looking at last, where a reader's eye falls when the report has gone by. Of many,
 * those in which all is well are one line together.
 */
export function countsByLesson(lessons: readonly LessonReport[]): readonly Counts[] {
  if (lessons.length < 2) return [];
  const each = lessons.map(lesson => ({ lesson, subject: lesson.file, summary: summarize([lesson]) }));
  const of = (urgency: Urgency): typeof each => each.filter(({ summary }) => urgencyOf(summary) === urgency);
  const good = of('good');
  const together = {
    subject: `${counted(good.length, 'lesson')} without a fault`,
    summary: summarize(good.map(({ lesson }) => lesson)),
  };
  const isLong = lessons.length > mostNamed && good.length > 1;
  return [...(isLong ? [together] : good), ...of('doubtful'), ...of('bad')];
}

/** `5 claims: 3 hold, 2 fail; 1 error`. */
export function countsInWords(summary: CheckSummary): string {
  const { claims, errors, warnings } = summary;
  // A lesson that cannot be read may well have some.
  const none = errors > 0 ? 'no claim was checked' : 'no claims';
  const verdicts = claims === 0 ? none : `${counted(claims, 'claim')}: ${verdictCounts(summary)}`;
  const findings = [
    ...(errors > 0 ? [counted(errors, 'error')] : []),
    ...(warnings > 0 ? [counted(warnings, 'warning')] : []),
  ];
  return findings.length === 0 ? verdicts : `${verdicts}; ${findings.join(', ')}`;
}

/** `since HEAD~1: 2 verdicts changed, 1 claim is new`. */
export function changesInWords({ since, changed, added, gone }: Changes): string {
  const parts = [
    changed.length === 0 ? 'no verdict changed' : `${counted(changed.length, 'verdict')} changed`,
    ...isWhat(added.length, 'new'),
    ...isWhat(gone.length, 'gone'),
  ];
  return `since ${since}: ${parts.join(', ')}`;
}

const isWhat = (count: number, what: string): readonly string[] =>
  count === 0 ? [] : [`${counted(count, 'claim')} ${count === 1 ? 'is' : 'are'} ${what}`];

function verdictCounts({ holds, arguable, undecided, fails, accepted, unjudged }: CheckSummary): string {
  const isAre = (count: number): string => (count === 1 ? 'is' : 'are');
  return [
    `${holds} ${holds === 1 ? 'holds' : 'hold'}`,
    ...(arguable > 0 ? [`${arguable} ${isAre(arguable)} arguable`] : []),
    ...(undecided > 0 ? [`${undecided} ${isAre(undecided)} undecided`] : []),
    ...(fails > 0 ? [`${fails} ${fails === 1 ? 'fails' : 'fail'}`] : []),
    ...(accepted > 0 ? [`${accepted} ${isAre(accepted)} set aside`] : []),
    ...(unjudged > 0 ? [`${unjudged} could not be checked`] : []),
  ].join(', ');
}
