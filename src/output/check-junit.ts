import { renderDiagnostic } from '../diagnostics/index.js';
import { isUnjudged } from '../lesson/index.js';
import { sinceInWords } from './check-changes.js';
import type { Changes } from './check-changes.js';
import type { CheckOptions, CheckReport, LessonReport, ReportedClaim } from './check-report.js';
import { placeJson } from './finding-json.js';

interface Case {
  readonly outcome: 'passed' | 'skipped' | 'failed' | 'error';
  readonly xml: string;
}

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  '\n': '&#10;',
  '\t': '&#9;',
};

/** Characters that XML 1.0 (section 2.2) has no place for, lone surrogates among them. */
const notInXml = /[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu;

const escaped = (text: string): string =>
  text.replace(notInXml, '\uFFFD').replace(/[&<>"\n\t]/g, sign => entities[sign] ?? sign);

const attributes = (values: Readonly<Record<string, string | number>>): string =>
  Object.entries(values)
    .map(([name, value]) => ` ${name}="${escaped(String(value))}"`)
    .join('');

/**
 * The report as test results in the JUnit style of XML that build servers read (common practice, no standard): a lesson is a suite, a
 * claim is a case. Where an earlier state is compared with, a changed verdict is told in the output of its case. A claim that is arguable, undecided or set aside is skipped and never passed; with `strict` the first two fail.
 */
export function checkJunit({ lessons, changes }: CheckReport, options: CheckOptions): string {
  const suites = lessons.map(lesson => suite(lesson, changes, options));
  return `<?xml version="1.0" encoding="UTF-8"?>\n<testsuites name="barwise">\n${suites.join('')}</testsuites>\n`;
}

function suite(lesson: LessonReport, changes: Changes | undefined, options: CheckOptions): string {
  const cases = [
    ...lesson.diagnostics
      .filter(({ severity }) => severity === 'error')
      .map((finding): Case => ({
        outcome: 'error',
        xml: testCase(
          {
            classname: lesson.file,
            name: `${finding.code}: ${finding.message}`,
            file: finding.span?.source.name ?? lesson.file,
            ...(finding.span === undefined ? {} : { line: placeJson(finding.span).line }),
          },
          `<error${attributes({ type: finding.code, message: finding.message })}>${escaped(renderDiagnostic(finding, options))}</error>`,
        ),
      })),
    ...lesson.claims
      .filter(({ sentence }) => sentence !== undefined)
      .map(claim => claimCase(lesson, claim, changes, options)),
  ];
  const count = (outcome: Case['outcome']): number => cases.filter(one => one.outcome === outcome).length;
  const counts = {
    name: lesson.file,
    tests: cases.length,
    failures: count('failed'),
    errors: count('error'),
    skipped: count('skipped'),
  };
  return `  <testsuite${attributes(counts)}>\n${cases.map(({ xml }) => xml).join('')}  </testsuite>\n`;
}

function claimCase(
  lesson: LessonReport,
  claim: ReportedClaim,
  changes: Changes | undefined,
  { strict }: CheckOptions,
): Case {
  const { entry, verdict, accepted } = claim;
  const change = sinceInWords(changes, claim);
  const since = change === undefined ? '' : `<system-out>${escaped(change)}</system-out>`;
  const { line } = placeJson(entry.span);
  const head = {
    classname: `${lesson.file} step ${String(entry.step + 1)}`,
    name: entry.text,
    file: lesson.file,
    line,
  };
  const message = `${isUnjudged(verdict.code) ? 'not checked' : verdict.verdict}: ${verdict.reason}`;
  const nearest = verdict.nearest === undefined ? '' : `\nnearest: ${verdict.nearest}`;
  if (accepted !== undefined) {
    const reason = `${message}; set aside: ${accepted}`;
    return {
      outcome: 'skipped',
      xml: testCase(head, `<skipped${attributes({ message: reason })}/>${since}`),
    };
  }
  if (verdict.verdict === 'holds') return { outcome: 'passed', xml: testCase(head, since) };
  if (verdict.verdict === 'fails' || strict === true) {
    const failure = `<failure${attributes({ type: verdict.code, message })}>${escaped(`${message}${nearest}`)}</failure>`;
    return { outcome: 'failed', xml: testCase(head, failure + since) };
  }
  return { outcome: 'skipped', xml: testCase(head, `<skipped${attributes({ message })}/>${since}`) };
}

const testCase = (head: Readonly<Record<string, string | number>>, inner = ''): string =>
  `    <testcase${attributes(head)}${inner === '' ? '/>' : `>${inner}</testcase>`}\n`;
