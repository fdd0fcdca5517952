/** Words of the narration without a claim behind them, over a score written for the tests. Music: tests/fixtures/check/all-hold. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { sourceText } from '../../src/diagnostics/index.js';
import { analyse } from '../../src/harmony/index.js';
import { checkLesson, readLesson } from '../../src/lesson/index.js';
import { readScore } from '../../src/score/index.js';

const score = readScore(
  sourceText('garden-gate.abc', readFileSync('tests/fixtures/check/all-hold/garden-gate.abc', 'utf8')),
).value;
const analysis = analyse(score);

function check(step: string, withScore = true) {
  const text = `format: 1\ntitle: T\nscore: garden-gate.abc\nhome: G major\nsteps:\n  - title: S\n${step}`;
  const { value: lesson } = readLesson(sourceText('lesson.yaml', text));
  if (lesson === undefined) throw new Error('the lesson of the test cannot be read');
  const { value, diagnostics } = checkLesson(lesson, {
    analysis: withScore ? analysis : undefined,
    versions: new Map(),
  });
  const written = ({ start, end }: { readonly start: number; readonly end: number }): string =>
    text.slice(start, end);
  return {
    checked: value.prose.checked,
    unchecked: value.prose.unchecked.map(({ span, claim, verdict }) => [
      written(span),
      claim,
      verdict?.verdict,
    ]),
    opinions: value.prose.opinions.map(({ span }) => written(span)),
    errors: diagnostics.map(({ code, span }) => [code, span === undefined ? '' : written(span)]),
  };
}

describe('coverage', () => {
  test('words with a claim are checked, and so are words that a claim of the step repeats', () => {
    // Bars 7-8 of the piece close with V7-I in G major, the soprano on the tonic: a perfect authentic cadence (Open Music Theory).
    expect(
      check(
        '    bars: 7-8\n    say: "[We close]{bar 8 is I} with a perfect authentic cadence. We are in G major. Lovely!"\n    claims: [bars 7-8 have a perfect authentic cadence]\n',
      ),
    ).toEqual({
      checked: 2,
      unchecked: [['in G major', 'bars 7-8 are in G major', 'holds']],
      opinions: ['Lovely'],
      errors: [],
    });
  });

  // What a claim places more exactly than the words do is checked by it; what says less, or speaks of another place, is not.
  test.each([
    ['bar 8 is a perfect authentic cadence', '7-8', 0],
    ['bar 8 is an authentic cadence', '7-8', 1],
    ['bar 8 is a perfect authentic cadence', '3-4', 1],
    ['bar 8 is a perfect authentic cadence and bar 7 has V7', '7-8', 0],
  ])('the claim that %s is behind the words for bars %s', (claim, bars, unchecked) => {
    const { unchecked: found } = check(
      `    bars: ${bars}\n    say: Here is a perfect authentic cadence.\n    claims: [${claim}]\n`,
    );
    expect(found).toHaveLength(unchecked);
  });

  // A7 is V7/V in G major (Open Music Theory, Applied Chords): a claim that names a chord is behind every name that it has.
  test.each([
    ['bar 3 is V7/V', 'We hear a secondary dominant.', 0],
    ['bar 3 is V7/V', 'We hear a secondary dominant of six.', 1],
    ['bar 3 is A7', 'We hear a dominant seventh.', 0],
    ['bar 4 is V', 'We hear a secondary dominant.', 1],
    ['bars 1-4 are in G major', 'Here we are in G major.', 0],
    ['bar 8 is a perfect authentic cadence', 'The cadence is perfect.', 1],
  ])('the claim that %s and: %s', (claim, words, unchecked) => {
    const { unchecked: found } = check(`    bars: 3-4\n    say: ${words}\n    claims: [${claim}]\n`);
    expect(found).toHaveLength(unchecked);
  });

  test('words without a bar are said of the one that was named before, or of the step', () => {
    const { unchecked } = check(
      '    bars: 1-8\n    say: In bar 3 we hear a secondary dominant. The chord is A major. It ends with a perfect authentic cadence.\n',
    );
    expect(unchecked).toEqual([
      ['In bar 3 we hear a secondary dominant', 'bar 3 has an applied chord', 'holds'],
      ['The chord is A major', 'at least 1 chord of bar 3 is an A major triad', 'arguable'],
      ['a perfect authentic cadence', 'bars 1-8 have a perfect authentic cadence', 'holds'],
    ]);
  });

  test('words across lines and Markdown are found in the source, each where it stands', () => {
    const { unchecked } = check(
      '    bars: 3\n    say: |\n      [A]{bar 3 has A}: an A dominant\n      *seventh* chord. An A dominant seventh chord.\n',
    );
    expect(unchecked.map(([words]) => words)).toEqual([
      'A dominant\n      *seventh* chord',
      'A dominant seventh chord',
    ]);
  });

  test('without notes there is no verdict', () => {
    expect(check('    bars: 3\n    say: In G major.\n', false).unchecked).toEqual([
      ['In G major', 'bar 3 is in G major', undefined],
    ]);
  });
});

describe('words against a claim', () => {
  const step = (words: string, claim: string, bars = '3'): string =>
    `    bars: ${bars}\n    say: ${words}\n    claims: [${claim}]\n`;

  // A C# E G is V7/V in G major (Open Music Theory, Applied Chords), so the chord is not D7.
  test.each<[string, string, readonly (readonly string[])[]]>([
    [
      'another chord of the same bar',
      step('Here is a D dominant seventh chord.', 'bar 3 is V7/V'),
      [['L0504', 'D dominant seventh chord']],
    ],
    [
      'another numeral, in the words of the claim language',
      step('Here bar 3 is V7.', 'bar 3 is V7/V'),
      [['L0504', 'bar 3 is V7']],
    ],
    [
      'another cadence',
      step('We end with a half cadence.', 'bar 8 is a perfect authentic cadence', '8'),
      [['L0504', 'a half cadence']],
    ],
    [
      'another key',
      step('We are in E flat major now.', 'bars 5-8 are in G major', '5-8'),
      [['L0504', 'in E flat major']],
    ],
    [
      'a modulation',
      step('Here we modulate to E flat major.', 'bars 5-8 are in G major', '5-8'),
      [['L0504', 'modulate to E flat major']],
    ],
    ['a numeral', step('This is ii6, and it moves on.', 'bar 3 is V7/V'), [['L0504', 'ii6']]],
    [
      'a bar that the sentence names',
      step('Bar 3 brings a D dominant seventh chord.', 'bar 3 is V7/V', '1-4'),
      [['L0504', 'Bar 3 brings a D dominant seventh chord']],
    ],
    [
      'the last bar of the step',
      step('Hear a plagal cadence in the last bar.', 'bar 8 is a perfect authentic cadence', '5-8'),
      [['L0504', 'a plagal cadence in the last bar']],
    ],
    ['a supposition', step('If this were a D dominant seventh chord, G would come.', 'bar 3 is V7/V'), []],
    ['a wrong opinion that is quoted', step('Some say "a D dominant seventh chord".', 'bar 3 is V7/V'), []],
    ['words that deny it', step('This is not a D dominant seventh chord.', 'bar 3 is V7/V'), []],
    [
      'a claim about one of several bars',
      step('Here is a D major seventh chord.', 'bar 3 is V7/V', '1-4'),
      [],
    ],
    ['a claim of another matter', step('Here is a D dominant seventh chord.', 'bar 3 has C#'), []],
    ['a claim that fails as well', step('Here is a D dominant seventh chord.', 'bar 3 is IV'), []],
    ['words that are right', step('Here is an A dominant seventh chord.', 'bar 3 is V7/V'), []],
  ])('%s', (_, lesson, errors) => {
    expect(check(lesson).errors).toEqual(errors);
  });
});
