/** What the checker's thread makes of a text. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checker } from '../../src/studio/check-text.js';
import type { Checker } from '../../src/studio/check-text.js';
import type { Checked, TextFinding } from '../../src/studio/checked.js';
import { claimFix } from '../../src/studio/fixes.js';
import { root } from '../workshop/bench.js';

const sample = (name: string): string => readFileSync(`${root}sample-lessons/${name}`, 'utf8');
const scores = new Map([['mill-road.abc', sample('mill-road.abc')]]);
const lesson = sample('mill-road.yaml');

const checkWith = ({ check }: Checker, text: string, more: object = {}): Checked =>
  check({ name: 'mill-road.yaml', text, scores, ...more });
/** The text with the change that a finding or a claim proposes. */
const mended = (text: string, { fix }: Pick<TextFinding, 'fix'>): string =>
  fix === undefined ? text : text.slice(0, fix.from) + fix.insert + text.slice(fix.to);

describe('a text', () => {
  it('is checked against the scores that came with it; others are asked for', () => {
    const one = checker();
    const first = checkWith(one, lesson, { scores: new Map() });
    expect([first.wanted, first.claims.map(({ verdict }) => verdict)]).toEqual([
      ['mill-road.abc'],
      first.claims.map(() => 'undecided'),
    ]);
    const second = checkWith(one, lesson);
    expect([second.wanted, second.findings, second.claims.length]).toEqual([[], [], first.claims.length]);
    expect(second.claims.length).toBeGreaterThan(30);
    expect(second.claims.every(({ verdict }) => verdict === 'holds')).toBe(true);
    const missing = checkWith(one, lesson.replace('mill-road.abc', 'other.abc'), {
      scores: new Map([['other.abc', null]]),
    });
    expect([missing.wanted, missing.score]).toEqual([[], undefined]);
  });

  it('has the places of its claims and steps in its own offsets', () => {
    const { claims, steps } = checkWith(checker(), lesson);
    for (const { from, to, text } of claims) expect(lesson.slice(from, to)).toContain(text);
    expect(steps.map(({ from }) => lesson.slice(from).split('\n')[0])).toEqual(
      steps.map(({ title }) => `title: ${title}`),
    );
  });

  it('that is no lesson is told from one without claims', () => {
    const one = checker();
    expect(checkWith(one, 'title: [')).toMatchObject({ isRead: false, claims: [], steps: [] });
    expect(checkWith(one, lesson).isRead).toBe(true);
  });

  it('brings its score once, and again where the score has changed', () => {
    const one = checker();
    const { score: first } = checkWith(one, lesson);
    expect(first?.content?.bars).toHaveLength(33);
    expect(checkWith(one, `${lesson}\n# more`, { holds: first?.id }).score).toEqual({ id: first?.id });
    const changed = checkWith(one, lesson, {
      holds: first?.id,
      scores: new Map([['mill-road.abc', sample('mill-road.abc').replace('d3 c B2', 'd3 c ^B2')]]),
    });
    expect(changed.score?.id).not.toBe(first?.id);
    expect(changed.score?.content?.bars).toHaveLength(33);
  });

  it('has the same verdicts whatever was checked before', () => {
    // What is kept from one text to the next must not show: a claim is judged by its home key, beat and conventions.
    const variants = [
      lesson.replace('home: B minor', 'home: D major'),
      lesson.replace('home: B minor', 'home: B minor\nbeat: dotted half'),
      lesson.replace('home: B minor', 'home: B minor\nconventions: { cadential: cad64, half-on-V7: none }'),
      lesson.replace('{bar 2 is V43}', '{bar 2 is V65}'),
      lesson,
    ];
    const one = checker();
    for (const text of variants) {
      const { claims } = checkWith(one, text);
      expect(claims).toEqual(checkWith(checker(), text).claims);
    }
  });
});

describe('a finding', () => {
  it.each([
    ['a misspelt key', 'narrator:', 'narator:'],
    ['a misspelt key of a step', '    show: [keys]', '    shwo: [keys]'],
    ['a misspelt action', '- play: 0-32', '- paly: 0-32'],
    ['a misspelt value', 'as: block, tempo: 60', 'as: blcok, tempo: 60'],
    ['a misspelt label', 'show: [chords, numerals]', 'show: [chords, nummerals]'],
    ['a key in other clothes', 'home: B minor', 'home: Bm'],
    ['a number with its unit', 'pace: 150', 'pace: 150 wpm'],
    ['a yes', 'under: true', 'under: yes'],
    ['bars from last to first', 'bars: 1-3\n', 'bars: 3-1\n'],
    ['a misspelt verb of a claim', '- bars 4-5 tonicize E', '- bars 4-5 tonicice E'],
  ])('of %s comes with a change that mends it', (_what, right, wrong) => {
    const text = lesson.replace(right, wrong);
    expect(text).not.toBe(lesson);
    const findings = checkWith(checker(), text).findings.filter(({ fix }) => fix !== undefined);
    expect(findings).toHaveLength(1);
    const after = findings.map(finding => mended(text, finding)).join('');
    expect(checkWith(checker(), after).findings).toEqual([]);
    expect(after).toBe(lesson);
  });

  it('of a sentence that cannot be read stands alone: no verdict is shown beside it', () => {
    const text = lesson.replace('- bars 4-5 tonicize E minor', '- the harmony leans to E minor');
    const { findings, claims } = checkWith(checker(), text);
    expect([findings.map(({ code }) => code), claims.filter(({ isJudged }) => !isJudged).length]).toEqual([
      ['C0001'],
      1,
    ]);
  });

  const known = checker();
  // The claim language says a place and a verb in several ways; what is proposed is a whole sentence in its own way.
  it.each([
    ['- bars 4-5 tonicize E minor', '- mm. 4-5 was in E minor', '- bars 4-5 are in E minor'],
    ['- bars 4-5 tonicize E minor', '- "mm. 4-5 was in E minor"', '- "bars 4-5 are in E minor"'],
    [
      '- bars 4-5 tonicize E minor',
      '- { claim: m. 4 was V65, accept: heard so }',
      '- { claim: bar 4 is V65, accept: heard so }',
    ],
    ['{bar 2 is V43}', '{m. 2 was\n          V43}', '{bar 2 is V43}'],
  ])('of a claim proposes the whole sentence for it: %s as %s', (right, wrong, better) => {
    const text = lesson.replace(right, wrong);
    expect(text).not.toBe(lesson);
    const { findings, claims } = checkWith(known, text);
    const after = findings.reduce(mended, text);
    expect(after).toBe(lesson.replace(right, better));
    // Its claim proposes the same.
    expect(claims.filter(({ isJudged }) => !isJudged).reduce(mended, text)).toBe(after);
  });

  // From memory of YAML 1.2.2, 7.3 and 7.4: a comma ends a plain value within braces, and a quotation mark one in quotes.
  it.each([
    ['- bar 2 is V7', 'bar 2 is V43', '- bar 2 is V43'],
    ['- { claim: bar 2 is V7, accept: a }', 'bar 2 has C#, E', '- { claim: "bar 2 has C#, E", accept: a }'],
    ['- claim: bar 2 is V7', 'bar 2 has C#, E', '- claim: bar 2 has C#, E'],
    ['- "bar 2 is V7"', 'voice "Oboe" has C#', '- "voice \\"Oboe\\" has C#"'],
    ["- 'bar 2 is V7'", "the tune's bar", "- 'the tune''s bar'"],
  ])('in %s: %s is written so that YAML reads it', (text, words, after) => {
    const claim = 'bar 2 is V7';
    const offsets = [...claim].map((_, at) => text.indexOf(claim) + at);
    expect(mended(text, { fix: claimFix({ text: claim, offsets }, words, text) })).toBe(after);
  });

  it('whose help is advice comes without', () => {
    const text = lesson.replace('home: B minor', 'home: B minor\nfoo: 1');
    expect(checkWith(checker(), text).findings.map(({ code, fix }: TextFinding) => [code, fix])).toEqual([
      ['L0101', undefined],
    ]);
  });

  it('of a score stands at the top of the lesson and names its file', () => {
    const broken = sample('mill-road.abc').replace('d3 c B2 |', 'd3 c B2 B2 |');
    const { findings } = checkWith(checker(), lesson, { scores: new Map([['mill-road.abc', broken]]) });
    expect(findings[0]).toMatchObject({ from: 0, to: 0 });
    expect(findings[0]?.message).toMatch(/^mill-road\.abc: /);
  });
});

describe('bars of the score', () => {
  it('are told with sentences that hold of them', () => {
    const one = checker();
    checkWith(one, lesson);
    const { harmonies, claims } = one.analyseBars({ bars: [1, 8] });
    expect(harmonies.map(({ place, roman }) => `${place} ${roman}`)).toEqual([
      'bar 1 i',
      'bar 2 V43',
      'bar 3 i6',
      'bar 4 V65/iv',
      'bar 5 iv',
      'bar 6 viio7/V',
      'bar 7 cad64',
      'bar 8 V',
    ]);
    expect(claims.slice(0, 2)).toEqual(['bars 1-8 are in B minor', 'bar 8 is a half cadence in B minor']);
    const text = `${lesson}\n    claims:\n${claims.map(claim => `      - ${JSON.stringify(claim)}\n`).join('')}`;
    expect(
      checkWith(one, text)
        .claims.slice(-claims.length)
        .map(({ verdict }) => verdict),
    ).toEqual(claims.map(() => 'holds'));
  });

  it('are nothing before a lesson was checked', () => {
    expect(checker().analyseBars({ bars: [0, 1] })).toEqual({ bars: [0, 1], harmonies: [], claims: [] });
  });
});
