import { withAccidentals } from '../timeline/index.js';
import { counted } from './counted.js';
import { changeInWords, newTroubles } from './check-changes.js';
import { changesInWords, countsByLesson, countsInWords, subjectOf, urgencyOf } from './check-counts.js';
import type { Urgency } from './check-counts.js';
import { summarize } from './check-report.js';
import type { CheckOptions, CheckReport, LessonReport } from './check-report.js';
import { reportFoot, reportHead } from './report/check-head.js';
import { startEngraver } from './report/engraver.js';
import type { Engraver } from './report/engraver.js';
import { engravePassages } from './report/excerpts.js';
import type { Passage } from './report/excerpts.js';
import { findingsSection } from './report/findings.js';
import { sharedGlyphs } from './report/glyphs.js';
import { element, text } from './report/markup.js';
import type { Markup } from './report/markup.js';
import type { NumberedClaim } from './report/marks.js';
import { reportPage } from './report/page.js';
import { stepSection, stepsOf } from './report/check-step.js';
import type { DrawnStep } from './report/check-step.js';
import { shownFindings } from './prose-findings.js';

/** Width of a line of the score in its column, in units of the engraving (a staff is 31 high). */
const lineWidth = 430;

/**
 * The report as one self-contained HTML document for reading and printing: the words of each step beside its bars, every claim with its
 * number, verdict, reason and notes, marked in the score.
 */
export async function checkHtml(report: CheckReport, options: CheckOptions): Promise<string> {
  const engraver = await startEngraver();
  const glyphs = sharedGlyphs();
  let number = 0;
  const lessons = report.lessons.map((lesson, index) => {
    const claims = lesson.claims.map((claim): NumberedClaim => ({ ...claim, number: ++number }));
    return lessonArticle(engraver, glyphs.share, { ...lesson, id: lessonId(index) }, claims, options);
  });
  const [only] = report.lessons;
  const title =
    report.lessons.length === 1 && only !== undefined
      ? `${only.subject?.lesson.title ?? only.file}: report`
      : `${counted(report.lessons.length, 'lesson')}: report`;
  return reportPage(
    title,
    element('main', {}, glyphs.definitions(), overview(report), changesSection(report), ...lessons),
    shownWhenAsked(number),
  );
}

const urgencies: readonly Urgency[] = ['bad', 'doubtful', 'good'];

/** The counts of several lessons, those that want looking at first, each with a link to what is said of it. */
function overview(report: CheckReport): Markup {
  const { lessons } = report;
  if (lessons.length < 2) return '';
  const counts = [...countsByLesson(lessons)].sort(
    (a, b) => urgencies.indexOf(urgencyOf(a.summary)) - urgencies.indexOf(urgencyOf(b.summary)),
  );
  const lines = counts.map(({ subject, summary }) => {
    const index = lessons.findIndex(({ file }) => file === subject);
    const name = index < 0 ? text(subject) : element('a', { href: `#${lessonId(index)}` }, text(subject));
    return element('li', { class: urgencyOf(summary) }, name, text(`: ${countsInWords(summary)}`));
  });
  return element(
    'nav',
    { class: 'overview', 'aria-label': 'lessons' },
    element('p', { class: 'eyebrow' }, text(`${subjectOf(report)}: ${countsInWords(summarize(lessons))}`)),
    element('ul', {}, ...lines),
  );
}

const lessonId = (index: number): string => `lesson-${String(index + 1)}`;

/** The verdicts that are not what they were, and the new claims that do not hold. */
function changesSection({ changes }: CheckReport): Markup {
  if (changes === undefined) return '';
  const told = [
    ...changes.changed.map(change => ({ claim: change.claim, news: changeInWords(change) })),
    ...newTroubles(changes).map(claim => ({ claim, news: `new, ${claim.verdict.verdict}` })),
  ];
  const items = told.map(({ claim: { entry }, news }) =>
    element('li', {}, text(`${withAccidentals(entry.text)}: ${news} (${entry.span.source.name})`)),
  );
  return element(
    'section',
    { class: 'findings' },
    element('p', { class: 'eyebrow' }, text(changesInWords(changes))),
    items.length === 0 ? '' : element('ul', {}, ...items),
  );
}

/** The marks of a claim that holds come out when its note, or the link to it in the words, is pointed at or gone to; those of others fade. */
const shownWhenAsked = (claims: number): string =>
  Array.from({ length: claims }, (_, index) => {
    const claim = `#claim-${String(index + 1)}`;
    const asked = [
      `${claim}:hover`,
      `${claim}:target`,
      `${claim}:focus-within`,
      `[href="${claim}"]:hover`,
    ].join(',');
    const [own, pointed] = [`.of-${String(index + 1)}`, `:is(${claim},[href="${claim}"]):hover`];
    return `.step:has(${asked}) ${own}{visibility:visible}.step:has(${pointed}) .marks>g:not(${own}){opacity:.15}`;
  }).join('');

function lessonArticle(
  engraver: Engraver,
  share: (markup: Markup) => Markup,
  lesson: LessonReport & { readonly id: string },
  claims: readonly NumberedClaim[],
  options: CheckOptions,
): Markup {
  const findings = findingsSection(shownFindings(lesson, options.unchecked === true));
  const { subject, id } = lesson;
  if (subject === undefined) return element('article', { class: 'lesson', id }, reportHead(lesson), findings);
  const steps = stepsOf(subject, claims);
  const drawn = draw(engraver, subject.score, steps);
  return element(
    'article',
    { class: 'lesson', id },
    reportHead(lesson),
    findings,
    ...steps.map((step, index) => stepSection(subject, step, drawn[index] ?? [], share, lineWidth)),
    reportFoot(lesson),
  );
}

function draw(
  engraver: Engraver,
  score: NonNullable<LessonReport['subject']>['score'],
  steps: readonly DrawnStep[],
): ReturnType<typeof engravePassages> {
  if (score === undefined) return [];
  const passages = steps.map(({ passage }): Passage => passage);
  try {
    return engravePassages(engraver, score, passages, lineWidth);
  } catch {
    // The engraver meets scores that it cannot draw; the report does without the notes then and says so.
    return [];
  }
}
