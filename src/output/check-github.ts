import type { Span } from '../diagnostics/index.js';
import { sinceInWords } from './check-changes.js';
import type { Changes } from './check-changes.js';
import { changesInWords, countsByLesson, countsInWords, subjectOf } from './check-counts.js';
import type { CheckOptions, CheckReport, LessonReport } from './check-report.js';
import { shownClaims, summarize } from './check-report.js';
import { placeJson } from './finding-json.js';
import { shownFindings } from './prose-findings.js';

type Level = 'error' | 'warning' | 'notice';

const inMessage: Readonly<Record<string, string>> = { '%': '%25', '\r': '%0D', '\n': '%0A' };
const inProperty: Readonly<Record<string, string>> = { ...inMessage, ':': '%3A', ',': '%2C' };
const escapeMessage = (text: string): string => text.replace(/[%\r\n]/g, sign => inMessage[sign] ?? sign);
const escapeProperty = (text: string): string => text.replace(/[%\r\n:,]/g, sign => inProperty[sign] ?? sign);

/**
 * Annotations for a change under review: a workflow command a line (GitHub, "Workflow commands for GitHub Actions", setting an error, a
 * warning, a notice message), then the counts. Columns are given where the place is within one line, as that page demands.
 */
export function checkGithub(report: CheckReport, options: CheckOptions): string {
  const commands = report.lessons.flatMap(lesson => lessonCommands(lesson, report.changes, options));
  const total = { subject: subjectOf(report), summary: summarize(report.lessons) };
  const counts = [...countsByLesson(report.lessons), total].map(
    ({ subject, summary }) => `${subject}: ${countsInWords(summary)}`,
  );
  const since = report.changes === undefined ? [] : [changesInWords(report.changes)];
  return [...commands, ...counts, ...since].map(line => `${line}\n`).join('');
}

function lessonCommands(
  lesson: LessonReport,
  changes: Changes | undefined,
  options: CheckOptions,
): readonly string[] {
  const findings = shownFindings(lesson, options.unchecked === true).map(
    ({ severity, code, message, notes = [], help, span }) => {
      const text = [message, ...notes, ...(help === undefined ? [] : [`help: ${help}`])].join('\n');
      return command(severity === 'note' ? 'notice' : severity, lesson.file, span, code, text);
    },
  );
  // A claim that holds is shown where it did not before.
  const shown = new Set([
    ...shownClaims(lesson, options.all),
    ...lesson.claims.filter(claim => sinceInWords(changes, claim) !== undefined),
  ]);
  const claims = lesson.claims
    .filter(claim => shown.has(claim))
    .map(claim => {
      const { entry, verdict, accepted } = claim;
      const since = sinceInWords(changes, claim);
      const { verdict: word, code, reason, nearest } = verdict;
      const text = [
        `${entry.text}: ${reason}`,
        ...(nearest === undefined ? [] : [`nearest: ${nearest}`]),
        ...(accepted === undefined ? [] : [`set aside: ${accepted}`]),
        ...(since === undefined ? [] : [since]),
      ].join('\n');
      const serious = word === 'fails' || (options.strict === true && word !== 'holds');
      const level = accepted !== undefined || word === 'holds' ? 'notice' : serious ? 'error' : 'warning';
      return command(level, lesson.file, entry.span, `${word} ${code}`, text);
    });
  return [...findings, ...claims];
}

function command(level: Level, file: string, span: Span | undefined, title: string, text: string): string {
  const place = span === undefined ? undefined : placeJson(span);
  const properties = {
    file: place?.file ?? file,
    ...(place === undefined ? {} : { line: place.line, endLine: place.endLine }),
    ...(place === undefined || place.line !== place.endLine
      ? {}
      : { col: place.column, endColumn: place.endColumn }),
    title,
  };
  const list = Object.entries(properties).map(([name, value]) => `${name}=${escapeProperty(String(value))}`);
  return `::${level} ${list.join(',')}::${escapeMessage(text)}`;
}
