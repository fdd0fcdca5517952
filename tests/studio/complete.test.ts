import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { checker } from '../../src/studio/check-text.js';
import type { KnownScore } from '../../src/studio/claim-words.js';
import { wordsAt } from '../../src/studio/complete.js';
import { knownScore, noScore } from '../../src/studio/known-score.js';
import { root } from '../workshop/bench.js';

let score: KnownScore = noScore;
beforeAll(() => {
  const read = (name: string): string => readFileSync(`${root}sample-lessons/${name}`, 'utf8');
  const scores = new Map([['mill-road.abc', read('mill-road.abc')]]);
  const { score: shown } = checker().check({ name: 'a.yaml', text: read('mill-road.yaml'), scores });
  if (shown?.content !== undefined) score = knownScore(shown.content);
});

const labels = (before: string): readonly string[] | undefined =>
  wordsAt(before, score)?.words.map(({ label }) => label);
const step = 'format: 1\nsteps:\n  - title: One\n';

// The keys and words of the lesson's format are those of lesson-schema/lesson.schema.json, which is made from the same source.
describe('completion of the lesson’s format', () => {
  it.each([
    ['ti', ['title: ']],
    [`${step}    sh`, ['show: ']],
    [`${step}    script:\n      - pl`, ['play: ']],
    [`${step}    script:\n      - play: { t`, ['tempo: ', 'times: ']],
    [`${step}    script:\n      - play: { as: `, ['written', 'stack', 'block', 'arpeggio']],
    [`${step}    script:\n      - play: { as: b`, ['block']],
    [`${step}    script:\n      - play:\n          under: `, ['true', 'false']],
    [`${step}    show: [chords, nu`, ['numerals']],
    [`${step}    show:\n      - non`, ['non-chord tones']],
    ['conventions:\n  cad', ['cadential: ', 'cadence-names: ']],
    ['conventions: { cadential: ', ['I64', 'cad64']],
    ['narrator: { p', ['pace: ']],
    ['beat: dotted q', ['dotted quarter', 'dotted quaver']],
    ['format: ', ['1']],
  ])('at the end of %j', (before, words) => {
    expect([...(labels(before) ?? [])].sort()).toEqual([...words].sort());
  });

  it('tells what a key is for, and which value stands for none', () => {
    expect(wordsAt('narr', score)?.words).toEqual([
      { label: 'narrator: ', detail: 'Who speaks, and how fast' },
    ]);
    expect(wordsAt(`${step}    script:\n      - play: { as: wr`, score)?.words).toEqual([
      { label: 'written', detail: 'as it is without' },
    ]);
  });

  it('says nothing in a narration or a remark', () => {
    expect(wordsAt(`${step}    say: |\n      The bass `, score)).toBeUndefined();
    expect(wordsAt(`${step}    title: `, score)?.words.map(({ label }) => label)).toEqual([
      'Settling into G',
    ]);
  });
});

describe('completion from the score', () => {
  it('offers its bars, and for a range those that follow', () => {
    expect(labels(`${step}    bars: `)?.slice(0, 3)).toEqual(['0', '1', '2']);
    expect(labels(`${step}    bars: 30-`)).toEqual(['31', '32']);
    expect(labels(`${step}    script:\n      - play: 3`)).toEqual(['3', '30', '31', '32']);
    expect(labels(`${step}    script:\n      - play: { bars: 31-`)).toEqual(['32']);
  });

  it('offers its voices', () => {
    expect(labels(`${step}    script:\n      - play: { bars: 1, voice: `)).toEqual(['Piano', '1', '2']);
  });
});

describe('completion of a claim', () => {
  const claim = (text: string): string => `${step}    claims:\n      - ${text}`;
  it.each([
    ['a claim', claim('')],
    ['a claim with a reason', claim('{ claim: ')],
    ['marked words', `${step}    say: Hear [this]{`],
    ['marked words of a block', `${step}    say: |\n      Hear [this]{`],
    ['the reason of an answer', `${step}    script:\n      - ask: Why?\n        because: `],
  ])('offers places at the beginning of %s', (_where, before) => {
    expect(labels(before)).toEqual(expect.arrayContaining(['bar ', 'bars ', 'the last bar', 'the soprano']));
  });

  it('offers bars behind `bar`, and verbs behind them', () => {
    expect(labels(claim('bar 3'))).toEqual(['3', '30', '31', '32']);
    expect(labels(claim('bars 30-'))).toEqual(expect.arrayContaining(['31', '32']));
    expect(labels(claim('bar 3 mod'))).toEqual([
      'modulates to',
      'modulates into',
      'modulates from',
      'modulates',
    ]);
  });

  it('offers what is heard in its bar before what is heard elsewhere', () => {
    const [first] = wordsAt(claim('bar 2 is V'), score)?.words ?? [];
    expect(first).toEqual({ label: 'V43', detail: 'heard in bar 2' });
    expect(labels(claim('bar 2 is F#7'))?.[0]).toBe('F#7/C#');
    expect(labels(claim('bar 2 is in '))?.[0]).toBe('B minor');
    expect(labels(claim('bar 2 has C'))?.[0]).toBe('C#');
    expect(labels(claim('bar 8 is a half'))).toEqual(
      expect.arrayContaining(['half', 'half-diminished seventh']),
    );
  });

  it('offers nothing behind words that cannot be read', () => {
    expect(labels(claim('bar 2 wibbles '))).toEqual([]);
  });
});
