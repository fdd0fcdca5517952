/** Test reports in XML 1.0 (W3C Recommendation, fifth edition), read back by a parser that refuses what is not well-formed. */
import { JSDOM } from 'jsdom';
import { describe, expect, test } from 'vitest';
import { sourceText } from '../../src/diagnostics/index.js';
import { checkFormats } from '../../src/output/index.js';
import type { CheckOptions, CheckReport } from '../../src/output/index.js';
import { checkedLessons, plain } from './checked-lesson.js';

const parse = (report: CheckReport, options: CheckOptions = plain): Document =>
  new JSDOM(checkFormats.junit(report, options), { contentType: 'application/xml' }).window.document;

/** Name and outcome of every case. */
const cases = (document: Document): readonly (readonly [string | null, string])[] =>
  [...document.querySelectorAll('testcase')].map(one => [
    one.getAttribute('name'),
    one.firstElementChild?.tagName ?? 'passed',
  ]);

describe('a report as test results', () => {
  test('a lesson is a suite with its counts, a claim is a case', async () => {
    const document = parse(await checkedLessons('fails-and-others', 'all-hold'));
    const suites = [...document.querySelectorAll('testsuites > testsuite')].map(suite =>
      ['name', 'tests', 'failures', 'errors', 'skipped'].map(name => suite.getAttribute(name)),
    );
    expect(suites[0]).toEqual(['tests/fixtures/check/fails-and-others/lesson.yaml', '9', '5', '0', '1']);
    expect(suites[1]?.slice(2)).toEqual(['0', '0', '0']);
    expect(cases(document).slice(0, 3)).toEqual([
      ['bar 1 is I', 'passed'],
      ['bar 2 is ii', 'failure'],
      ['bar 3 is V7/ii', 'failure'],
    ]);
    expect(document.querySelector('failure')?.textContent).toBe(
      'fails: G does not belong to Am, and the root A never sounds; the lowest tone is C, the third, not A\nnearest: bar 2 is IV',
    );
  });

  test('what is undecided is never passed; strictly it is a failure', async () => {
    const report = await checkedLessons('fails-and-others');
    const silent = (options: CheckOptions) =>
      cases(parse(report, options)).find(([name]) => name === 'bar 9 is I');
    expect(silent(plain)).toEqual(['bar 9 is I', 'skipped']);
    expect(silent({ ...plain, strict: true })).toEqual(['bar 9 is I', 'failure']);
  });

  test('a verdict that is set aside is skipped with the reason', async () => {
    const document = parse(await checkedLessons('acceptances'));
    const reasons = [...document.querySelectorAll('skipped')].map(one => one.getAttribute('message'));
    expect(reasons.filter(reason => reason?.includes('; set aside: '))).not.toEqual([]);
  });

  test('errors of the lesson are cases too, and a claim that cannot be read is one of them', async () => {
    const document = parse(await checkedLessons('unreadable-claims'));
    const errors = cases(document).filter(([, outcome]) => outcome === 'error');
    expect(errors.length).toBe(Number(document.querySelector('testsuite')?.getAttribute('errors')));
    expect(errors[0]?.[0]).toMatch(/^C0001: cannot read/);
  });

  test('any text stays well-formed', () => {
    const odd = `<![CDATA[ & "quoted" ]]> \u0000\u000B\uD800 \u{1D11E}\n\tend`;
    const span = { source: sourceText('<odd> & "file".yaml', odd), start: 0, end: odd.length };
    const finding = { code: 'L0101', severity: 'error', message: odd, span } as const;
    const prose = { checked: 0, unchecked: [], opinions: [] };
    const document = parse({
      lessons: [{ file: '<odd> & "file".yaml', claims: [], diagnostics: [finding], prose }],
    });
    expect(document.querySelector('testsuite')?.getAttribute('name')).toBe('<odd> & "file".yaml');
    expect(document.querySelector('testcase')?.getAttribute('name')).toBe(
      `L0101: <![CDATA[ & "quoted" ]]> \uFFFD\uFFFD\uFFFD \u{1D11E}\n\tend`,
    );
  });
});
