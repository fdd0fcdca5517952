import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { readClaim } from '../../src/claims/index.js';
import { rewordings, turns } from '../../src/claims/rewording/index.js';
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

test('every turn of phrase changes a sentence that it is said in', () => {
  const filled: Readonly<Record<string, string>> = {
    place: 'bar 5',
    line: 'the bass',
    note: 'F#',
    numeral: 'V7',
    key: 'D minor',
    number: '3',
    word: 'theme',
    words: 'the theme',
    rest: 'the theme',
  };
  for (const [meant, ...spellings] of turns)
    for (const said of spellings) {
      expect(meant).not.toMatch(/[$^|()[\]]/u);
      const sentence = said
        .replace(/<([^>]+)>/gu, (_, name: string) => filled[name.split(' ').at(-1) ?? ''] ?? '')
        .replace(/\(([^|)]*)[^)]*\)/gu, '$1')
        .replace(/\[[^\]]*\] ?|[$^]/gu, '');
      expect([said, [...rewordings(`x ${sentence}`), ...rewordings(sentence)].length > 0]).toEqual([
        said,
        true,
      ]);
    }
});
