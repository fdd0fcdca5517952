/** What changed between two reports: claims are found again by their words, wherever they have moved. */
import { describe, expect, test } from 'vitest';
import type { VerdictWord } from '../../src/claims/index.js';
import { sourceText } from '../../src/diagnostics/index.js';
import { changesSince, checkFormats, earlierLesson, readEarlierReport } from '../../src/output/index.js';
import type { LessonReport } from '../../src/output/index.js';
import { changeInWords } from '../../src/output/check-changes.js';
import { checkedLessons, plain } from './checked-lesson.js';

type Row = readonly [step: number, text: string, verdict: VerdictWord];

const lesson = (file: string, rows: readonly Row[]): LessonReport => {
  const source = sourceText(file, rows.map(([, text]) => text).join('\n'));
  return {
    file,
    diagnostics: [],
    prose: { checked: 0, unchecked: [], opinions: [] },
    claims: rows.map(([step, text, verdict], index) => ({
      entry: {
        path: `steps/${String(step)}/claims/${String(index)}`,
        text,
        step,
        offsets: [],
        span: { source, start: 0, end: 1 },
      },
      sentence: text,
      verdict: { verdict, code: 'C0201', reason: '', evidence: [] },
    })),
  };
};

const compare = (before: readonly Row[], now: readonly Row[]) => {
  const { changed, added, gone } = changesSince(
    'before',
    { lessons: [earlierLesson(lesson('a.yaml', before))] },
    [lesson('a.yaml', now)],
  );
  return {
    changed: changed.map(({ claim, before: was, now }) => [claim.entry.text, was, now]),
    added: added.length,
    gone: gone.length,
  };
};

describe('changes since an earlier state', () => {
  test.each<[string, readonly Row[], readonly Row[], ReturnType<typeof compare>]>([
    ['nothing', [[0, 'x', 'holds']], [[0, 'x', 'holds']], { changed: [], added: 0, gone: 0 }],
    [
      'a verdict',
      [[0, 'x', 'holds']],
      [[0, 'x', 'fails']],
      { changed: [['x', 'holds', 'fails']], added: 0, gone: 0 },
    ],
    [
      'a verdict, in a step that moved',
      [[0, 'x', 'holds']],
      [
        [0, 'new', 'holds'],
        [1, 'x', 'fails'],
      ],
      { changed: [['x', 'holds', 'fails']], added: 1, gone: 0 },
    ],
    ['words of a claim', [[0, 'x', 'holds']], [[0, 'y', 'fails']], { changed: [], added: 1, gone: 1 }],
    [
      'one of two equal claims, told apart by their steps',
      [
        [0, 'x', 'holds'],
        [1, 'x', 'fails'],
      ],
      [
        [0, 'x', 'holds'],
        [1, 'x', 'holds'],
      ],
      { changed: [['x', 'fails', 'holds']], added: 0, gone: 0 },
    ],
    [
      'nothing, where another step has the same words and comes first',
      [[1, 'x', 'fails']],
      [
        [0, 'x', 'holds'],
        [1, 'x', 'fails'],
      ],
      { changed: [], added: 1, gone: 0 },
    ],
  ])('%s', (_, before, now, expected) => {
    expect(compare(before, now)).toEqual(expected);
  });

  test('lessons are found by their path however it is typed', () => {
    const earlier = {
      lessons: [
        {
          file: './x/a.yaml',
          claims: [{ step: 0, text: 'x', verdict: 'holds' as const, code: 'C0201', reason: '' }],
          findings: [],
        },
        { file: 'b.yaml', claims: [], findings: [] },
      ],
    };
    const { changed } = changesSince('s', earlier, [lesson('x/a.yaml', [[0, 'x', 'fails']])]);
    expect(changed.map(({ file }) => file)).toEqual(['x/a.yaml']);
  });
});

describe('a report that was written earlier', () => {
  test('is read back from JSON, and nothing has changed since', async () => {
    const report = await checkedLessons(
      'fails-and-others',
      'all-hold',
      'unreadable-claims',
      'words-of-the-narration',
    );
    const earlier = readEarlierReport(checkFormats.json(report));
    expect(earlier?.lessons.map(({ claims }) => claims.length)).toEqual(
      report.lessons.map(({ claims }) => claims.length),
    );
    if (earlier === undefined) throw new Error('the report is read');
    expect(changesSince('then', earlier, report.lessons)).toEqual({
      since: 'then',
      changed: [],
      added: [],
      gone: [],
      newFindings: [],
      goneFindings: [],
    });
  });

  test.each(['', '{', '[]', '{"barwise":2,"lessons":[]}', '{"barwise":1,"lessons":[{"file":1}]}', 'null'])(
    'is refused where it is none: %s',
    json => {
      expect(readEarlierReport(json)).toBeUndefined();
    },
  );

  test('a claim that could be checked at last had no verdict before', () => {
    const [before, now] = [
      lesson('a.yaml', [[0, 'x', 'undecided']]),
      lesson('a.yaml', [[0, 'x', 'undecided']]),
    ];
    const claims = before.claims.map(({ verdict, ...rest }) => ({
      ...rest,
      verdict: { ...verdict, code: 'L0503' as const },
    }));
    const changes = changesSince('then', { lessons: [earlierLesson({ ...before, claims })] }, [now]);
    expect(changes.changed.map(changeInWords)).toEqual(['not checked → undecided']);
  });

  test('what changed is told in words and in JSON', () => {
    const now = lesson('a.yaml', [
      [0, 'bar 1 is I', 'fails'],
      [0, 'bar 2 is I', 'holds'],
      [0, 'bar 3 is I', 'fails'],
    ]);
    const earlier = { lessons: [earlierLesson(lesson('a.yaml', [[0, 'bar 1 is I', 'holds']]))] };
    const report = { lessons: [now], changes: changesSince('HEAD~1', earlier, [now]) };
    expect(checkFormats.text(report, plain).split('\n').slice(-4)).toEqual([
      'since HEAD~1: 1 verdict changed, 2 claims are new',
      'a.yaml:1:1: holds → fails: bar 1 is I',
      'a.yaml:1:1: new, fails: bar 3 is I',
      '',
    ]);
    expect(JSON.parse(checkFormats.json(report))).toMatchObject({
      since: {
        name: 'HEAD~1',
        changed: [{ file: 'a.yaml', line: 1, text: 'bar 1 is I', before: 'holds', now: 'fails' }],
        added: 2,
        addedClaims: [
          { text: 'bar 2 is I', now: 'holds' },
          { text: 'bar 3 is I', now: 'fails' },
        ],
        gone: 0,
      },
    });
  });
});

describe('a changed verdict in the formats of other programs', () => {
  const now = lesson('a.yaml', [
    [0, 'bar 1 is I', 'holds'],
    [0, 'bar 2 is V', 'fails'],
  ]);
  const earlier = lesson('a.yaml', [
    [0, 'bar 1 is I', 'fails'],
    [0, 'bar 2 is V', 'fails'],
  ]);
  const report = {
    lessons: [now],
    changes: changesSince('HEAD~1', { lessons: [earlierLesson(earlier)] }, [now]),
  };

  test('is annotated, although the claim holds now', () => {
    const lines = checkFormats.github(report, plain).split('\n');
    expect(lines[0]).toContain('bar 1 is I: %0Asince HEAD~1: fails → holds');
    expect(lines.filter(line => line.includes('HEAD~1: '))).toHaveLength(2);
    expect(lines.at(-2)).toBe('since HEAD~1: 1 verdict changed');
  });

  test('is the output of its test case', () => {
    const xml = checkFormats.junit(report, plain);
    expect(xml.match(/<system-out>.*<\/system-out>/gu)).toEqual([
      '<system-out>since HEAD~1: fails → holds</system-out>',
    ]);
  });
});
