/**
 * Reports in SARIF 2.1.0 (OASIS Standard, 27 March 2020), held against the published JSON schema. The schema comes in the package
 * @microsoft/jest-sarif, as the schema store publishes it (2.1.0-rtm.5).
 */
import { createRequire } from 'node:module';
import { Ajv } from 'ajv';
import { describe, expect, test } from 'vitest';
import { catalogue, sourceText } from '../../src/diagnostics/index.js';
import { changesSince, checkFormats, earlierLesson } from '../../src/output/index.js';
import type { CheckOptions, CheckReport } from '../../src/output/index.js';
import { checkedLessons, plain } from './checked-lesson.js';

// It is written in draft 4 of JSON Schema and uses nothing that later drafts read otherwise, but for the name of its own address.
const { $schema, id, ...schema } = createRequire(import.meta.url)(
  '@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json',
) as Readonly<Record<string, unknown>>;
const validate = new Ajv({
  strict: false,
  validateFormats: false,
  unicodeRegExp: false,
  allErrors: true,
}).compile(schema);

interface Log {
  readonly runs: readonly {
    readonly tool: {
      readonly driver: { readonly version?: string; readonly rules: readonly { readonly id: string }[] };
    };
    readonly results: readonly {
      readonly ruleId: string;
      readonly ruleIndex: number;
      readonly kind: string;
      readonly level: string;
      readonly message: { readonly text: string };
      readonly locations?: readonly {
        readonly physicalLocation: {
          readonly artifactLocation: { readonly uri: string };
          readonly region: Readonly<Record<string, number>>;
        };
      }[];
      readonly relatedLocations?: readonly unknown[];
      readonly partialFingerprints: Readonly<Record<string, string>>;
      readonly suppressions?: readonly unknown[];
      readonly baselineState?: string;
    }[];
  }[];
}

function sarif(report: CheckReport, options: CheckOptions = plain) {
  const log = JSON.parse(checkFormats.sarif(report, options)) as Log;
  const [run] = log.runs;
  if (run === undefined) throw new Error('a log has a run');
  return { log, ...run };
}

describe('a report in SARIF', () => {
  test('is what the published schema wants, whatever is in the lessons', async () => {
    expect([String($schema), String(id)]).toEqual([
      'http://json-schema.org/draft-04/schema#',
      expect.stringContaining('sarif-2.1.0-rtm.5.json'),
    ]);
    const report = await checkedLessons(
      'fails-and-others',
      'acceptances',
      'score-is-no-music',
      'score-missing',
      'unreadable-claims',
      'versions-compared',
      'words-of-the-narration',
    );
    const { log, results } = sarif(report, { ...plain, all: true, unchecked: true, version: '1.2.3' });
    expect(results.length).toBeGreaterThan(40);
    validate(log);
    expect(validate.errors).toBeNull();
  });

  test('the schema notices what is wrong', async () => {
    const { log } = sarif(await checkedLessons('all-hold'));
    expect(validate({ ...log, version: '2.0.0' })).toBe(false);
  });

  test('is a whole log where nothing is found', async () => {
    const { log, results } = sarif(await checkedLessons('all-hold'));
    expect(results).toEqual([]);
    expect(validate(log)).toBe(true);
  });

  test('explains each rule that it uses, and no other', async () => {
    const { tool, results } = sarif(await checkedLessons('fails-and-others', 'unreadable-claims'));
    const used = [...new Set(results.map(({ ruleId }) => ruleId))].sort();
    expect(tool.driver.rules.map(rule => rule.id)).toEqual(used);
    expect(results.map(({ ruleIndex }) => used[ruleIndex])).toEqual(results.map(({ ruleId }) => ruleId));
    expect(tool.driver.rules[0]).toEqual({
      id: 'C0001',
      name: 'unreadable-claim',
      shortDescription: { text: catalogue.C0001.summary },
      help: { text: expect.not.stringContaining('`'), markdown: catalogue.C0001.explanation },
    });
  });

  // SARIF 2.1.0, 3.27.9: `review` needs a human, `open` lacks evidence; 3.27.10: their level is `none`.
  test.each([
    ['fails', 'fail', 'error'],
    ['arguable', 'review', 'none'],
    ['undecided', 'open', 'none'],
    ['holds', 'pass', 'none'],
  ] as const)('a claim that %s is of the kind %s and the level %s', async (verdict, kind, level) => {
    const [lesson] = (await checkedLessons('all-hold')).lessons;
    const claims = (lesson?.claims ?? [])
      .slice(0, 1)
      .map(claim => ({ ...claim, verdict: { ...claim.verdict, verdict } }));
    if (lesson === undefined) throw new Error('the lesson is there');
    const { results } = sarif({ lessons: [{ ...lesson, claims }] }, { ...plain, all: true });
    expect(results.map(result => [result.kind, result.level])).toEqual([[kind, level]]);
  });

  test('points at the claim, and at the notes of the score that decide', async () => {
    const { results } = sarif(await checkedLessons('fails-and-others'));
    const result = results.find(({ message }) => message.text.includes('G does not belong to Am'));
    expect(result).toMatchObject({
      ruleId: 'C0204',
      locations: [
        {
          physicalLocation: {
            artifactLocation: { uri: 'tests/fixtures/check/fails-and-others/lesson.yaml' },
            region: { startLine: 9, startColumn: 44, endLine: 9, endColumn: 55 },
          },
        },
      ],
    });
    expect(result?.relatedLocations?.[0]).toMatchObject({
      id: 0,
      physicalLocation: {
        artifactLocation: { uri: 'tests/fixtures/check/fails-and-others/garden-gate.abc' },
      },
    });
  });

  test('keeps the reason of a verdict that is set aside', async () => {
    const { results } = sarif(await checkedLessons('acceptances'));
    const reasons = results.flatMap(({ suppressions }) => suppressions ?? []);
    expect(reasons.length).toBeGreaterThan(0);
    expect(reasons[0]).toEqual({ kind: 'inSource', justification: expect.any(String) });
  });

  test('writes odd file names as URIs (RFC 3986)', async () => {
    const [lesson] = (await checkedLessons('fails-and-others')).lessons;
    if (lesson === undefined) throw new Error('the lesson is there');
    const uriOf = (name: string): string | undefined => {
      const span = { source: sourceText(name, 'x'), start: 0, end: 1 };
      const finding = { code: 'L0101', severity: 'error', message: 'm', span } as const;
      const { results } = sarif({ lessons: [{ ...lesson, claims: [], diagnostics: [finding] }] });
      return results[0]?.locations?.[0]?.physicalLocation.artifactLocation.uri;
    };
    expect(uriOf('my lessons/100 % #1?.yaml')).toBe('my%20lessons/100%20%25%20%231%3F.yaml');
    expect(uriOf('/a b/c.yaml')).toBe('file:///a%20b/c.yaml');
  });
});

// SARIF 2.1.0, 3.27.24: where one result has a state against the baseline, all have.
describe('against an earlier state', () => {
  const compared = async (options: CheckOptions = plain) => {
    const { lessons } = await checkedLessons('fails-and-others', 'unreadable-claims');
    const [changing, broken] = lessons;
    const [first, second, third, ...others] = changing?.claims ?? [];
    if (changing === undefined || broken === undefined || first === undefined) throw new Error('two lessons');
    if (second === undefined || third === undefined) throw new Error('three claims');
    const lost = { ...third, entry: { ...third.entry, text: 'bar 2 is ii' } };
    const judged = (claim: typeof first, verdict: 'holds' | 'fails') => ({
      ...claim,
      verdict: { ...claim.verdict, verdict },
    });
    const earlier = {
      lessons: [
        earlierLesson({
          ...changing,
          claims: [judged(first, 'fails'), judged(second, 'holds'), judged(lost, 'fails'), ...others],
        }),
        earlierLesson({ ...broken, diagnostics: broken.diagnostics.slice(1) }),
      ],
    };
    const now = [
      {
        ...changing,
        claims: [judged(first, 'holds'), judged(second, 'fails'), judged(third, 'fails'), ...others],
      },
      { ...broken, diagnostics: broken.diagnostics.slice(0, -1) },
    ];
    return sarif({ lessons: now, changes: changesSince('HEAD~1', earlier, now) }, options);
  };

  test('each result says whether it is new, unchanged, updated or absent', async () => {
    const { log, results } = await compared();
    validate(log);
    expect(validate.errors).toBeNull();
    const states = results.map(result => result.baselineState);
    expect(states).not.toContain(undefined);
    const count = (state: string) => states.filter(each => each === state).length;
    // Two changed verdicts; a claim and a finding that are new; the same gone.
    expect(['new', 'updated', 'absent'].map(count)).toEqual([2, 2, 2]);
    expect(count('unchanged')).toBe(results.length - 6);
    expect(count('unchanged')).toBeGreaterThan(0);
  });

  test('a verdict that is mended is still a result, and says what it was', async () => {
    const { results } = await compared();
    const mended = results.find(({ kind }) => kind === 'pass');
    expect(mended?.baselineState).toBe('updated');
    expect(mended?.message.text).toMatch(/\nsince HEAD~1: fails → holds$/u);
  });

  test('what is gone is told without a place, as no error', async () => {
    const { results } = await compared();
    const gone = results.filter(each => each.baselineState === 'absent');
    expect(gone.map(each => each.level)).toEqual(['none', 'none']);
    expect(gone[1]?.message.text).toMatch(/^gone since HEAD~1: bar 2 is ii\nfails: /u);
    expect(gone[1]?.locations?.[0]?.physicalLocation).toEqual({
      artifactLocation: { uri: 'tests/fixtures/check/fails-and-others/lesson.yaml' },
    });
  });

  test('a claim keeps its fingerprint when its verdict changes', async () => {
    const updated = (await compared()).results.filter(each => each.baselineState === 'updated');
    const { results } = sarif(await checkedLessons('fails-and-others'), { ...plain, all: true });
    const prints = results.map(each => each.partialFingerprints['barwise/v1']);
    for (const each of updated) expect(prints).toContain(each.partialFingerprints['barwise/v1']);
  });

  test('without an earlier state no result has one', async () => {
    const { results } = sarif(await checkedLessons('fails-and-others'));
    expect(new Set(results.map(each => each.baselineState))).toEqual(new Set([undefined]));
  });
});

describe('a fingerprint', () => {
  const finding = (text: string, words: string, from = 0) => {
    const source = sourceText('lesson.yaml', text);
    const start = text.indexOf(words, from);
    return {
      code: 'L0101',
      severity: 'error',
      message: 'm',
      span: { source, start, end: start + words.length },
    } as const;
  };
  const printsOf = (...diagnostics: readonly ReturnType<typeof finding>[]): readonly string[] => {
    const prose = { checked: 0, unchecked: [], opinions: [] };
    const { results } = sarif({ lessons: [{ file: 'lesson.yaml', claims: [], prose, diagnostics }] });
    return results.map(({ partialFingerprints }) => partialFingerprints['barwise/v1'] ?? '');
  };

  test('stays when lines are put in before', () => {
    expect(printsOf(finding('a: 1\nbars: x\n', 'bars'))).toEqual(
      printsOf(finding('# new\n\na: 1\n  bars: x\n', 'bars')),
    );
  });

  test('tells equal words and other words apart', () => {
    const text = 'bars: x\nbars: x\ntempo: x\n';
    const prints = printsOf(finding(text, 'bars'), finding(text, 'bars', 4), finding(text, 'tempo'));
    expect(new Set(prints).size).toBe(3);
  });
});
