import { describe, expect, it } from 'vitest';
import type { VerdictWord } from '../../src/claims/index.js';
import { plainPalette, sourceText } from '../../src/diagnostics/index.js';
import type { Diagnostic } from '../../src/diagnostics/index.js';
import { checkFormats, passes, summarize } from '../../src/output/index.js';
import type { LessonReport, ReportedClaim } from '../../src/output/index.js';

const source = sourceText('lesson.yaml', 'claims:\n  - bar 1 is I\n');
const span = { source, start: 12, end: 22 };

const claim = (verdict: VerdictWord, accepted?: string): ReportedClaim => ({
  entry: { path: 'steps/0/claims/0', text: 'bar 1 is I', span, offsets: [], step: 0 },
  sentence: 'bar 1 is I',
  verdict: { verdict, code: 'C0201', reason: `the verdict is ${verdict}`, evidence: [] },
  ...(accepted === undefined ? {} : { accepted }),
});
/** A claim in whose place a finding stands. */
const unjudged = (code: 'C0001' | 'C0002' | 'L0503' | 'C2004'): ReportedClaim => {
  const { verdict, ...rest } = claim('undecided');
  return { ...rest, verdict: { ...verdict, code } };
};
const finding = (severity: Diagnostic['severity']): Diagnostic => ({
  code: 'L0101',
  severity,
  message: severity,
  span,
});
const lesson = (claims: readonly ReportedClaim[], diagnostics: readonly Diagnostic[] = []): LessonReport => ({
  file: 'lesson.yaml',
  claims,
  diagnostics,
  prose: { checked: 0, unchecked: [], opinions: [] },
});

describe('a report passes', () => {
  // Exit codes of the commands as README.md documents them.
  it.each<[string, LessonReport, boolean, boolean]>([
    ['with nothing in it', lesson([]), true, true],
    ['where all claims hold', lesson([claim('holds'), claim('holds')]), true, true],
    ['with an arguable claim, but not strictly', lesson([claim('arguable')]), true, false],
    ['with an undecided claim, but not strictly', lesson([claim('undecided')]), true, false],
    ['where a failing claim is set aside', lesson([claim('fails', 'for a reason')]), true, true],
    ['where an arguable claim is set aside', lesson([claim('arguable', 'for a reason')]), true, true],
    ['with warnings and notes', lesson([claim('holds')], [finding('warning'), finding('note')]), true, true],
    ['not where a claim fails', lesson([claim('holds'), claim('fails')]), false, false],
    ['not strictly with a claim that could not be checked', lesson([unjudged('C2004')]), true, false],
    ['not with an error', lesson([claim('holds')], [finding('error')]), false, false],
  ])('%s', (_, report, usually, strictly) => {
    expect([passes({ lessons: [report] }, false), passes({ lessons: [report] }, true)]).toEqual([
      usually,
      strictly,
    ]);
  });

  it('only if every lesson does', () => {
    expect(passes({ lessons: [lesson([claim('holds')]), lesson([claim('fails')])] }, false)).toBe(false);
  });
});

describe('a summary', () => {
  it('counts every claim once', () => {
    const words: readonly VerdictWord[] = ['holds', 'arguable', 'undecided', 'fails'];
    const claims = words.flatMap((word, index) => [
      ...Array.from({ length: index + 1 }, () => claim(word)),
      claim(word, 'for a reason'),
    ]);
    claims.push(...(['C0001', 'C0002', 'L0503', 'C2004'] as const).map(unjudged), unjudged('L0503'));
    const summary = summarize([lesson(claims, [finding('error'), finding('warning'), finding('warning')])]);
    expect(summary).toEqual({
      lessons: 1,
      claims: 19,
      holds: 1,
      arguable: 2,
      undecided: 3,
      fails: 4,
      accepted: 4,
      unjudged: 5,
      errors: 1,
      warnings: 2,
      checkedStatements: 0,
      uncheckedStatements: 0,
      opinions: 0,
    });
  });
});

describe('the text for people', () => {
  const show = (report: LessonReport, all = false): string =>
    checkFormats.text({ lessons: [report] }, { width: 80, palette: plainPalette, all });

  it('leaves out what holds, unless all is asked for', () => {
    const report = lesson([claim('holds')]);
    expect(show(report)).toBe('lesson.yaml: 1 claim: 1 holds\n');
    expect(show(report, true)).toBe(
      'lesson.yaml:2:5: holds C0201: the verdict is holds\n   2 |   - bar 1 is I\n     |     ^^^^^^^^^^\n\nlesson.yaml: 1 claim: 1 holds\n',
    );
  });

  it.each<[string, LessonReport, string]>([
    ['nothing', lesson([]), 'no claims'],
    [
      'one of each',
      lesson([claim('holds'), claim('arguable'), claim('undecided'), claim('fails')]),
      '4 claims: 1 holds, 1 is arguable, 1 is undecided, 1 fails',
    ],
    [
      'two of each',
      lesson(
        [...'aabbcc'].map((_, i) => claim((['arguable', 'undecided', 'fails'] as const)[i % 3] ?? 'fails')),
      ),
      '6 claims: 0 hold, 2 are arguable, 2 are undecided, 2 fail',
    ],
    ['set aside', lesson([claim('fails', 'for a reason')]), '1 claim: 0 hold, 1 is set aside'],
    [
      'without a verdict',
      lesson([claim('holds'), unjudged('C0001'), unjudged('L0503')]),
      '3 claims: 1 holds, 2 could not be checked',
    ],
    [
      'findings',
      lesson([], [finding('error'), finding('warning')]),
      'no claim was checked; 1 error, 1 warning',
    ],
  ])('counts in words: %s', (_, report, line) => {
    expect(show(report).trimEnd().split('\n').at(-1)).toBe(`lesson.yaml: ${line}`);
  });

  it('adds up several lessons', () => {
    const text = checkFormats.text(
      { lessons: [lesson([claim('holds')]), { ...lesson([claim('holds')]), file: 'other.yaml' }] },
      { width: 80, palette: plainPalette, all: false },
    );
    expect(text).toBe(
      'lesson.yaml: 1 claim: 1 holds\nother.yaml: 1 claim: 1 holds\n2 lessons: 2 claims: 2 hold\n',
    );
  });

  it('names the lessons that want looking at last, and those of many that do not in one line', () => {
    const named = (file: string, ...claims: readonly ReportedClaim[]): LessonReport => ({
      ...lesson(claims),
      file,
    });
    const shown = (lessons: readonly LessonReport[]): readonly string[] =>
      checkFormats
        .text({ lessons }, { width: 80, palette: plainPalette, all: false })
        .split('\n\n')
        .slice(-1)
        .flatMap(foot => foot.trimEnd().split('\n'));
    const [bad, doubtful] = [named('bad.yaml', claim('fails')), named('doubtful.yaml', claim('arguable'))];
    expect(shown([bad, named('good.yaml', claim('holds')), doubtful])).toEqual([
      'good.yaml: 1 claim: 1 holds',
      'doubtful.yaml: 1 claim: 0 hold, 1 is arguable',
      'bad.yaml: 1 claim: 0 hold, 1 fails',
      '3 lessons: 3 claims: 1 holds, 1 is arguable, 1 fails',
    ]);
    const many = Array.from({ length: 20 }, (_, at) => named(`${String(at)}.yaml`, claim('holds')));
    expect(shown([...many.slice(0, 9), bad, ...many.slice(9)])).toEqual([
      '20 lessons without a fault: 20 claims: 20 hold',
      'bad.yaml: 1 claim: 0 hold, 1 fails',
      '21 lessons: 21 claims: 20 hold, 1 fails',
    ]);
  });

  it('counts what the narration says, where something in it is unchecked, and lists it where that is asked for', () => {
    const words = { words: 'bar 1', span: { ...span, end: 17 }, step: 0 };
    const fails = { verdict: 'fails', code: 'C0204', reason: 'it is another', evidence: [] } as const;
    const report: LessonReport = {
      ...lesson([claim('holds')]),
      prose: {
        checked: 3,
        unchecked: [
          { ...words, claim: 'bar 1 is V', verdict: fails },
          { ...words, claim: 'bar 1 is vi' },
        ],
        opinions: [words],
      },
    };
    const options = { width: 100, palette: plainPalette, all: false };
    expect(checkFormats.text({ lessons: [report] }, options)).toBe(
      'lesson.yaml: 1 claim: 1 holds\nnarration: 3 statements checked, 2 without a claim, 1 of them doubtful, 1 opinion (list them with\n`--unchecked`)\n',
    );
    expect(checkFormats.text({ lessons: [report] }, { ...options, unchecked: true }).split('\n')).toEqual([
      'lesson.yaml:2:5: note L0505: `bar 1` has no claim behind it',
      '   2 |   - bar 1 is I',
      '     |     ^^^^^',
      '  why   it seems to say that bar 1 is V; fails C0204: it is another',
      '  help  to have it checked, write `[words]{claim}`',
      '',
      'lesson.yaml:2:5: note L0505: `bar 1` has no claim behind it',
      '   2 |   - bar 1 is I',
      '     |     ^^^^^',
      '  why   it seems to say that bar 1 is vi',
      '  help  to have it checked, write `[words]{claim}`',
      '',
      'lesson.yaml:2:5: note L0506: `bar 1` speaks of history, intention, feeling or taste, and no note can',
      'settle that',
      '   2 |   - bar 1 is I',
      '     |     ^^^^^',
      '',
      'lesson.yaml: 1 claim: 1 holds',
      'narration: 3 statements checked, 2 without a claim, 1 of them doubtful, 1 opinion',
      '',
    ]);
  });

  it('gathers the notes that do the same for a verdict', () => {
    const note = (pitch: string, beat: string, why: string) => ({
      role: 'contradicts' as const,
      pitch,
      voice: 'LH',
      bar: '3',
      beat,
      why,
    });
    const fails = claim('fails');
    const evidence = [
      note('G3', '1', 'foreign'),
      note('B3', '1', 'foreign'),
      note('G3', '2', 'foreign'),
      note('A3', '2', 'too low'),
    ];
    const text = show(lesson([{ ...fails, verdict: { ...fails.verdict, evidence, nearest: 'bar 1 is V' } }]));
    expect(text.split('\n').slice(3, 6)).toEqual([
      '  against  G3 B3 (LH, bar 3 beat 1), G3 (LH, bar 3 beat 2): foreign',
      '           A3 (LH, bar 3 beat 2): too low',
      '  nearest  bar 1 is V',
    ]);
  });
});
