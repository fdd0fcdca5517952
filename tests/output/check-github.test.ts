/** Annotations as GitHub documents them: "Workflow commands for GitHub Actions", setting a notice, a warning, an error message. */
import { describe, expect, test } from 'vitest';
import { sourceText } from '../../src/diagnostics/index.js';
import { checkFormats } from '../../src/output/index.js';
import type { CheckOptions } from '../../src/output/index.js';
import { checkedLessons, plain } from './checked-lesson.js';

const lines = async (name: string, options: CheckOptions = plain): Promise<readonly string[]> =>
  checkFormats
    .github(await checkedLessons(name), options)
    .trimEnd()
    .split('\n');

describe('annotations', () => {
  test('an error for a claim that fails, a warning for one that is undecided, then the counts', async () => {
    const file = 'tests/fixtures/check/fails-and-others/lesson.yaml';
    const written = await lines('fails-and-others');
    expect(written[0]).toBe(
      `::error file=${file},line=9,endLine=9,col=44,endColumn=55,title=fails C0204::bar 2 is ii: G does not belong to Am, and the root A never sounds; the lowest tone is C, the third, not A%0Anearest: bar 2 is IV`,
    );
    expect(written.filter(line => line.startsWith('::warning'))).toEqual([
      `::warning file=${file},line=15,endLine=15,col=9,endColumn=19,title=undecided C0005::bar 9 is I: nothing sounds in bar 9`,
    ]);
    expect(written.at(-1)).toBe(`${file}: 9 claims: 3 hold, 1 is undecided, 5 fail`);
    const strict = await lines('fails-and-others', { ...plain, strict: true });
    expect(strict.filter(line => line.startsWith('::warning'))).toEqual([]);
  });

  test('no column where the place goes over several lines', async () => {
    const [long] = (await lines('fails-and-others')).filter(line => line.includes('line=10'));
    expect(long).toMatch(/^::error file=[^,]+,line=10,endLine=11,title=fails C0204::/);
  });

  test('a verdict that is set aside and a word of opinion are notices', async () => {
    expect((await lines('acceptances')).filter(line => line.startsWith('::notice'))).not.toEqual([]);
    const words = await lines('words-of-the-narration', { ...plain, unchecked: true });
    expect(words.filter(line => line.includes('title=L0506::'))).toHaveLength(1);
  });

  test('nothing in a name or a message ends a command or begins another', () => {
    const source = sourceText('a,b:c%.yaml', 'x');
    const finding = {
      code: 'L0101',
      severity: 'warning',
      message: '100 %\r\n::error::x',
      span: { source, start: 0, end: 1 },
    } as const;
    const prose = { checked: 0, unchecked: [], opinions: [] };
    const report = { lessons: [{ file: 'a,b:c%.yaml', claims: [], diagnostics: [finding], prose }] };
    expect(checkFormats.github(report, plain).split('\n')[0]).toBe(
      '::warning file=a%2Cb%3Ac%25.yaml,line=1,endLine=1,col=1,endColumn=2,title=L0101::100 %25%0D%0A::error::x',
    );
  });
});
