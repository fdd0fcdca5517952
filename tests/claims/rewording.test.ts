import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { readClaim } from '../../src/claims/index.js';
import { needlesOf } from '../../src/claims/rewording/needles.js';
import { patternOf, rewritten } from '../../src/claims/rewording/pattern.js';
import { turns } from '../../src/claims/rewording/index.js';
import { ask, contextOf } from './asking.js';
import { scoreNamed } from './scores.js';

const rows = z
  .record(z.string(), z.string())
  .parse(parse(readFileSync('tests/fixtures/sentences/reworded.yaml', 'utf8')));

const printed = (text: string): string => {
  const read = readClaim(text);
  return 'claim' in read ? read.claim.print() : `unread: ${read.problem.message}`;
};

describe('a sentence in other words is read as what it says', () => {
  test.each(Object.entries(rows))('%s', (typed, meant) => {
    expect(printed(typed)).toBe(meant);
    expect(printed(meant)).toBe(meant);
  });
});

test('the reason says in which words it was understood', () => {
  expect(
    ask('m. 2 is V43 followed by i6', contextOf(scoreNamed('mill-road'), { home: 'B minor' })),
  ).toMatchObject({
    reason: expect.stringMatching(/^read as `bar 2 goes V43 i6`: /u) as string,
  });
});

const filled: Readonly<Record<string, string>> = {
  place: 'bar 5',
  range: 'bars 5-8',
  line: 'the bass',
  note: 'F#',
  numeral: 'V7',
  chord: 'dominant seventh',
  member: 'third',
  tone: 'suspension',
  key: 'D minor',
  score: '"altered.abc"',
  number: '3',
  word: 'theme',
  words: 'the theme',
  rest: 'the theme',
};
const stretchesOf = (text: string): readonly string[] =>
  Array.from(text.matchAll(/<([^>]+)>/gu), ([, name]) => name ?? '');
/** The first thing that a turn stands for: of what may stand or not, that it stands; of several, the first. */
function firstSaid(said: string): string {
  const without = said.replace(/\(([^()|]*)[^()]*\)/gu, '$1');
  return without === said
    ? said
        .replace(/<([^>]+)>/gu, (_, name: string) => filled[name.split(' ').at(-1) ?? ''] ?? '')
        .replace(/\[[^\]]*\] ?|[$^?]/gu, '')
    : firstSaid(without);
}

test('every turn of phrase fits what it is written for, and neither drops nor makes up what is said', () => {
  const wrong = turns.flatMap(([meant, ...spellings]) =>
    spellings.flatMap(said => [
      ...(/[$^|()[\]]/u.test(meant) ? [`no sentence: ${meant}`] : []),
      ...(rewritten(firstSaid(said), patternOf(said), meant) === undefined ? [`never fits: ${said}`] : []),
      ...(needlesOf(said).length === 0 || needlesOf(said).some(word => firstSaid(said).includes(word))
        ? []
        : [`not found by its words: ${said}`]),
      ...stretchesOf(meant)
        .filter(name => !stretchesOf(said).includes(name))
        .map(name => `makes up <${name}>: ${said}`),
      ...stretchesOf(said)
        .filter(name => !stretchesOf(meant).includes(name))
        .map(name => `drops <${name}>: ${said}`),
    ]),
  );
  expect(wrong).toEqual([]);
});
