import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { isAsserted, meaningOf, statementsInProse } from '../../src/claims/index.js';
import type { Place } from '../../src/claims/index.js';
import { sourceText } from '../../src/diagnostics/index.js';
import { analyse } from '../../src/harmony/index.js';
import { readScore } from '../../src/score/index.js';
import { contextOf } from './asking.js';
import { scoreNamed } from './scores.js';

const waltz = analyse(
  readScore(sourceText('mill-road.abc', readFileSync('sample-lessons/mill-road.abc', 'utf8'))).value,
);
const context = contextOf(waltz, { home: 'B minor' });
const bars = (first: string, last = first): Place => ({ kind: 'bars', first, last });

const found = (text: string, place: Place) =>
  statementsInProse(text, place).map(({ from, to, claim }) => [
    text.slice(from, to),
    claim?.print() ?? 'opinion',
    claim?.check(context).verdict ?? 'undecided',
  ]);

describe('statements in a narration', () => {
  test.each<[string, Place, readonly (readonly string[])[]]>([
    [
      'Listen to the B dominant seventh here.',
      bars('4'),
      [['B dominant seventh', 'at least 1 chord of bar 4 is a B dominant seventh chord', 'holds']],
    ],
    [
      'After the D dominant seventh chord we rest on a half cadence.',
      bars('7', '8'),
      [
        ['D dominant seventh chord', 'at least 1 chord of bars 7-8 is a D dominant seventh chord', 'fails'],
        ['a half cadence', 'bars 7-8 have a half cadence', 'holds'],
      ],
    ],
    [
      'We are in D major now, and the beautiful suspension tells it.',
      bars('13', '16'),
      [
        ['in D major', 'bars 13-16 are in D major', 'holds'],
        ['beautiful', 'opinion', 'undecided'],
        ['suspension', 'bars 13-16 have a suspension', 'holds'],
      ],
    ],
    [
      'Here bar 8 is a half cadence, as bar 4 has D#.',
      bars('1', '8'),
      [
        ['bar 8 is a half cadence', 'bar 8 is a half cadence', 'holds'],
        ['bar 4 has D#', 'bar 4 has D#', 'holds'],
      ],
    ],
    [
      'Hear a half cadence in bar 8, in B minor, and the suspension in bar 15.',
      bars('1', '16'),
      [
        ['a half cadence in bar 8, in B minor', 'bar 8 has a half cadence in B minor', 'holds'],
        ['suspension in bar 15', 'bar 15 has a suspension', 'holds'],
      ],
    ],
    ['Let us walk that road slowly, once more.', bars('1', '8'), []],
    ['', bars('1'), []],
  ])('%s', (text, place, expected) => {
    expect(found(text, place)).toEqual(expected);
  });
});

const sentence = z.strictObject({
  score: z.enum(['mill-road', 'long-table']),
  bars: z.tuple([z.string(), z.string()]),
  text: z.string(),
  says: z.array(
    z.strictObject({
      words: z.string(),
      claim: z.string(),
      verdict: z.enum(['holds', 'arguable', 'undecided', 'fails']).optional(),
      asserted: z.literal(true).optional(),
    }),
  ),
});
const narration = z.array(sentence).parse(parse(readFileSync('tests/fixtures/prose/narration.yaml', 'utf8')));
const homes = { 'mill-road': 'B minor', 'long-table': 'Eb major' } as const;

describe('a teacher walks through the bars', () => {
  test.each(narration)('$score $bars: $text', ({ score, bars: [first, last], text, says }) => {
    const scoreContext = contextOf(scoreNamed(score), { home: homes[score] });
    const heard = statementsInProse(text, bars(first, last)).map(({ from, to, claim, readings = [] }) => {
      const words = text.slice(from, to);
      if (claim === undefined) return { words, claim: 'opinion' };
      const { claim: meant, verdict } = meaningOf({ claim, readings: [...readings, claim] }, scoreContext);
      return {
        words,
        claim: meant.print(),
        verdict: verdict.verdict,
        ...(isAsserted(text, from, to) ? { asserted: true } : {}),
      };
    });
    expect(heard).toEqual(says);
  });

  test('sentences say what holds, what fails and nothing', () => {
    const verdicts = narration.flatMap(({ says }) => says.map(({ verdict }) => verdict));
    expect(verdicts.filter(verdict => verdict === 'holds').length).toBeGreaterThan(40);
    expect(verdicts.filter(verdict => verdict === 'fails').length).toBeGreaterThan(12);
    expect(narration.filter(({ says }) => says.length === 0).length).toBeGreaterThan(15);
  });
});
