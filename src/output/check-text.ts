import type { VerdictWord } from '../claims/index.js';
import { renderDiagnostic, renderFramed, wrap } from '../diagnostics/index.js';
import type { Fact, FrameOptions, Tone } from '../diagnostics/index.js';
import type { UncheckedWords } from '../lesson/index.js';
import { shownClaims, summarize } from './check-report.js';
import type { CheckOptions, CheckReport, CheckSummary, LessonReport, ReportedClaim } from './check-report.js';
import { changeInWords, newTroubles } from './check-changes.js';
import { changesInWords, countsByLesson, countsInWords, subjectOf, urgencyOf } from './check-counts.js';
import type { Urgency } from './check-counts.js';
import { evidenceByRole } from './check-evidence.js';
import { counted } from './counted.js';
import { placeJson } from './finding-json.js';
import { shownFindings } from './prose-findings.js';

const tones: Readonly<Record<VerdictWord, Tone>> = {
  holds: 'good',
  arguable: 'warning',
  undecided: 'note',
  fails: 'error',
};

const urgencyTones: Readonly<Record<Urgency, Tone>> = { good: 'good', doubtful: 'warning', bad: 'error' };

/** Lines of evidence for one role; JSON lists every note. */
const mostLines = 4;

/**
 * The report for people: every finding, and every claim that does not hold, in its frame with the notes that decide and
 * the nearest true statement; then a line that counts. `all` shows the claims that hold as well.
 */
export function checkText(report: CheckReport, options: CheckOptions): string {
  const { body, foot } = checkTextParts(report, options);
  return [...body, ...foot].join('\n');
}

/** The same in two parts, for a screen that cannot show all of it: what was found, and the counts with what has changed. */
export function checkTextParts(
  report: CheckReport,
  options: CheckOptions,
): { readonly body: readonly string[]; readonly foot: readonly string[] } {
  const blocks = report.lessons.flatMap(lesson => lessonBlocks(lesson, options));
  const counts = countsByLesson(report.lessons).map(({ subject, summary }) =>
    summaryLine(subject, summary, options),
  );
  const total = summaryLine(subjectOf(report), summarize(report.lessons), options);
  const foot = [...counts, total, narrationLine(report, options)].join('');
  return { body: blocks, foot: [foot, ...changesBlock(report, options)] };
}

function lessonBlocks(lesson: LessonReport, options: CheckOptions): readonly string[] {
  const items = [
    ...shownFindings(lesson, options.unchecked === true).map(diagnostic => ({
      file: diagnostic.span?.source.name ?? lesson.file,
      start: diagnostic.span?.start ?? 0,
      text: () => renderDiagnostic(diagnostic, options),
    })),
    ...shownClaims(lesson, options.all).map(checked => ({
      file: checked.entry.span.source.name,
      start: checked.entry.span.start,
      text: () => claimBlock(checked, options),
    })),
  ];
  const files = [...new Set([lesson.file, ...items.map(({ file }) => file)])];
  return files.flatMap(file =>
    items
      .filter(item => item.file === file)
      .sort((a, b) => a.start - b.start)
      .map(({ text }) => text()),
  );
}

function claimBlock({ entry, verdict, accepted }: ReportedClaim, options: FrameOptions): string {
  const facts: Fact[] = evidenceByRole(verdict.evidence).flatMap(({ name, lines }) => {
    const more = lines.length > mostLines ? [`and ${lines.length - mostLines} more`] : [];
    return [...lines.slice(0, mostLines), ...more].map(text => ({ name, text }));
  });
  if (verdict.nearest !== undefined) facts.push({ name: 'nearest', text: verdict.nearest });
  if (accepted !== undefined) facts.push({ name: 'accepted', text: accepted });
  return renderFramed(
    {
      tone: accepted === undefined ? tones[verdict.verdict] : 'note',
      word: accepted === undefined ? verdict.verdict : `${verdict.verdict} (set aside)`,
      code: verdict.code,
      message: verdict.reason,
      span: entry.span,
      facts: facts.map((fact, index) =>
        facts[index - 1]?.name === fact.name ? { ...fact, name: '' } : fact,
      ),
    },
    options,
  );
}

function summaryLine(subject: string, summary: CheckSummary, { palette, width }: FrameOptions): string {
  const tone = urgencyTones[urgencyOf(summary)];
  return wrap(`${subject}: ${countsInWords(summary)}`, width)
    .map((line, index) => {
      const named = index === 0 && line.startsWith(subject);
      return named
        ? palette.strong(subject) + palette[tone](line.slice(subject.length))
        : palette[tone](line);
    })
    .map(line => `${line}\n`)
    .join('');
}

/** How much of the narration is checked, where anything in it is not. */
function narrationLine({ lessons }: CheckReport, { palette, width, unchecked }: CheckOptions): string {
  const { checkedStatements, uncheckedStatements, opinions } = summarize(lessons);
  if (uncheckedStatements + opinions === 0) return '';
  const failing = lessons.flatMap(({ prose }) => prose.unchecked).filter(failsUnchecked).length;
  const parts = [
    `${counted(checkedStatements, 'statement')} checked`,
    ...(uncheckedStatements > 0
      ? [`${uncheckedStatements} without a claim${failing > 0 ? `, ${failing} of them doubtful` : ''}`]
      : []),
    ...(opinions > 0 ? [counted(opinions, 'opinion')] : []),
  ];
  const hint = unchecked === true ? '' : ' (list them with `--unchecked`)';
  return wrap(`narration: ${parts.join(', ')}${hint}`, width)
    .map(line => `${palette.note(line)}\n`)
    .join('');
}

/** The verdicts that are not what they were, and the new claims that do not hold. */
function changesBlock({ changes }: CheckReport, { palette, width }: FrameOptions): readonly string[] {
  if (changes === undefined) return [];
  const told = [
    ...changes.changed.map(change => ({ claim: change.claim, news: changeInWords(change) })),
    ...newTroubles(changes).map(claim => ({ claim, news: `new, ${claim.verdict.verdict}` })),
  ];
  const lines = told.flatMap(({ claim, news }) => {
    const { file, line, column } = placeJson(claim.entry.span);
    const now = claim.verdict.verdict;
    const text = `${file}:${line}:${column}: ${news}: ${claim.entry.text}`;
    return wrap(text, width).map((part, index) => palette[tones[now]](index === 0 ? part : `  ${part}`));
  });
  return [[palette.strong(changesInWords(changes)), ...lines].map(line => `${line}\n`).join('')];
}

const failsUnchecked = ({ verdict }: UncheckedWords): boolean => verdict?.verdict === 'fails';
