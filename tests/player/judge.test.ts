import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { defaultConventions } from '../../src/claims/index.js';
import { sourceText } from '../../src/diagnostics/index.js';
import { analyse, printKey, type Analysis } from '../../src/harmony/index.js';
import { judge, questionOf, sameWords } from '../../src/player/judge.js';
import { practiceQuestions } from '../../src/player/practice-questions.js';
import { readScore, type Score } from '../../src/score/index.js';
import type { PageData } from '../../src/timeline/index.js';

/** I, V7/V in first inversion, V, I in C major, four voices (Open Music Theory, "Applied Chords": 7th chord on raised 4, resolving to V). */
const score = readScore(
  sourceText(
    'a.abc',
    'X:1\nM:4/4\nL:1/2\n%%score {1 | 2}\nK:C\nV:1\n[Ec] [EG] | [Dc] [Ac] | [GB] [DB] | [Ec]2 |]\nV:2 clef=bass\n[C,G,] [C,G,] | [^F,D] [^F,D] | [G,D] [G,,G,] | [C,G,]2 |]\n',
  ),
).value;
const analysis = analyse(score);
const dataOf = (score: Score, analysis: Analysis, home: string): PageData => ({
  page: 1,
  id: 'a',
  title: 'a',
  home,
  conventions: defaultConventions,
  pedal: false,
  scores: [
    {
      path: 'a.abc',
      title: '',
      composer: '',
      abc: '',
      voices: [],
      notes: [],
      bars: score.bars.map(bar => ({
        label: bar.label,
        start: bar.start.n / bar.start.d,
        length: bar.length.n / bar.length.d,
        beat: 0.25,
        startsAt: 0,
        from: 0,
        to: 0,
      })),
      segments: [],
      reading: analysis,
    },
  ],
  steps: [],
  claims: [],
  timeline: { seconds: 0, steps: [], events: [] },
  clips: [],
});
const data = dataOf(score, analysis, 'C major');
const bar2 = { place: 'bar 2', home: 'C major' };

describe('what a student writes', () => {
  test.each([
    // The same chord written in other ways: figures with and without a stroke, the chord's own name, small letters.
    ['V65/V', 'holds'],
    ['V6/5/V', 'holds'],
    ['V⁶₅/V', 'holds'],
    ['  V65/V ', 'holds'],
    ['D7/F#', 'holds'],
    ['D7/F♯', 'holds'],
    ['d7/F#', 'holds'],
    ['D dominant seventh', 'holds'],
    // Enharmonic: true for the ear, spelled otherwise.
    ['Ebb7/Gb', 'arguable'],
    // Right chord, wrong inversion.
    ['V7/V', 'fails'],
    ['ii', 'fails'],
    ['Dm', 'fails'],
  ] as const)('%s for bar 2: %s', (entry, verdict) => {
    const judged = judge(data, analysis, bar2, entry);
    expect(judged.kind === 'judged' ? judged.claim.verdict : judged.kind).toBe(verdict);
    expect(judged.kind === 'judged' && judged.right).toBe(verdict !== 'fails');
  });

  test.each(['', 'hmm', 'in C major', 'a half cadence', 'V65/V and bar 1 is I', 'not ii', '7', '<b>V</b>'])(
    '“%s” is no harmony',
    entry => {
      const judged = judge(data, analysis, bar2, entry);
      expect(judged.kind === 'unread' && judged.help).toBe(
        `${entry === '' ? '' : `“${entry}” cannot be read. `}Write a chord, such as A7/C#, or a numeral, such as V6/5.`,
      );
    },
  );

  test('a wrong answer comes with the reason and its notes, and does not give the right one away', () => {
    const judged = judge(data, analysis, bar2, 'ii6');
    if (judged.kind !== 'judged') throw new Error('not judged');
    expect(judged.claim.nearest).toBeUndefined();
    expect(judged.claim.reason).toContain('F#');
    expect(judged.claim.evidence.map(({ pitch }) => pitch)).toContain('F#3');
    // The chord that sounds is D7/F#.
    expect(judged.claim.evidence.filter(({ why }) => why.includes('D7'))).toEqual([]);
  });

  test('a numeral may be meant in the key that the passage is heard in', () => {
    expect(judge(data, analysis, bar2, 'V65')).toMatchObject({ right: false });
    expect(judge(data, analysis, { ...bar2, localKey: 'G major' }, 'V65')).toMatchObject({ right: true });
    expect(judge(data, analysis, bar2, 'V65 in G major')).toMatchObject({ right: true });
  });
});

describe('what a question asks for', () => {
  test.each([
    ['bar 2 is V65/V', { place: 'bar 2', home: 'C major' }],
    ['bar 2 beat 3 is D7/F#', { place: 'bar 2 beat 3', home: 'C major' }],
    ['bar 2 is V65 in G major', { place: 'bar 2', home: 'C major', localKey: 'G major' }],
    ['bar 2 has F#', undefined],
    ['bar 4 is a perfect authentic cadence', undefined],
    ['bars 1-4 are in C major', undefined],
    [undefined, undefined],
  ])('%s', (because, question) => {
    expect(questionOf(because, 'C major')).toEqual(question);
  });
});

describe('answers in words', () => {
  test.each([
    ['C sharp', 'c#'],
    ['C sharp', 'C♯'],
    ['B flat', 'Bb'],
    ['B flat', 'b ♭'],
    ['A half cadence.', 'a half-cadence'],
  ])('%s and %s are the same', (one, other) => {
    expect(sameWords(one, other)).toBe(true);
  });
  test.each([
    ['C', 'C sharp'],
    ['B', 'B flat'],
    ['bass', 'b flat ass'],
  ])('%s and %s are not', (one, other) => {
    expect(sameWords(one, other)).toBe(false);
  });
});

describe('practice', () => {
  test.each([
    ['mill-road', 'B minor'],
    ['long-table', 'Eb major'],
  ])('asks nothing in %s that the judge would not grant to its own reading', (name, home) => {
    const file = `sample-lessons/${name}.abc`;
    const piece = readScore(sourceText(file, readFileSync(file, 'utf8'))).value;
    const heard = analyse(piece);
    const lesson = dataOf(piece, heard, home);
    const questions = practiceQuestions(lesson, heard, 0, piece.bars.length - 1);
    expect(questions.length).toBeGreaterThan(20);
    for (const question of questions) {
      const segment = heard.segments[question.segment];
      if (segment === undefined) throw new Error('no segment');
      const entry = `${segment.roman} in ${printKey(segment.key)}`;
      expect(judge(lesson, heard, question, entry), `${question.place} is ${entry}`).toMatchObject({
        right: true,
      });
    }
  });

  test('asks for a chord whole of which the seventh comes a beat later: V65/iv, the broken G# E B E under D (Hutchinson, Secondary Dominants)', () => {
    const late = readScore(
      sourceText(
        'late.abc',
        'X:1\nM:4/4\nL:1/8\n%%score {1 | 2}\nK:Em\nV:1\nb4 g4 | b2 e2 d4- | d4 c4 | f4 a4 | g8 |]\nV:2 clef=bass\nE,B,G,B, E,B,G,B, | ^G,,E,B,,E, G,,E,B,,E, | A,,E,C,E, A,,E,C,E, | B,,A,^D,A, B,,A,D,A, | E,B,G,B, E,4 |]\n',
      ),
    ).value;
    const heard = analyse(late);
    const lesson = dataOf(late, heard, 'E minor');
    const questions = practiceQuestions(lesson, heard, 1, 1);
    expect(questions.map(({ heading }) => heading)).toEqual(['Bar 2']);
    const [question] = questions;
    if (question === undefined) throw new Error('nothing is asked');
    expect(judge(lesson, heard, question, 'V65/iv')).toMatchObject({ right: true });
    expect(judge(lesson, heard, question, 'V65')).toMatchObject({ right: false });
  });

  test('asks once for every harmony, by the bar where it fills the bar and else by the beat, each judged right as it is read', () => {
    const questions = practiceQuestions(data, analysis, 0, score.bars.length - 1);
    expect(questions.map(({ heading }) => heading)).toEqual(['Bar 1', 'Bar 2', 'Bar 3', 'Bar 4']);
    for (const question of questions) {
      const roman = analysis.segments[question.segment]?.roman ?? '';
      expect(judge(data, analysis, question, roman), `${question.place} ${roman}`).toMatchObject({
        right: true,
      });
    }
  });
});
