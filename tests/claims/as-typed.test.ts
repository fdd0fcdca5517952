import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { readClaim } from '../../src/claims/index.js';
import type { VerdictWord } from '../../src/claims/index.js';
import { ask, contextOf } from './asking.js';
import { scoreNamed } from './scores.js';

const group = z.strictObject({
  score: z.string(),
  home: z.string(),
  versions: z.array(z.string()).optional(),
  conventions: z.strictObject({ 'cadence-names': z.enum(['US', 'UK']) }).optional(),
  sentences: z.array(z.string().regex(/^[+~?-] /u)),
});
const verdictOf: Readonly<Record<string, VerdictWord>> = {
  '+': 'holds',
  '~': 'arguable',
  '?': 'undecided',
  '-': 'fails',
};
const groups = z.array(group).parse(parse(readFileSync('tests/fixtures/sentences/as-typed.yaml', 'utf8')));

describe.each(groups)(
  'as typed about $score in $home',
  ({ score, home, versions = [], conventions, sentences }) => {
    const context = () => ({
      ...contextOf(scoreNamed(score), { home, conventions: conventions ?? {} }),
      versions: Object.fromEntries(versions.map(name => [`${name}.abc`, scoreNamed(name)])),
    });
    test.each(sentences)('%s', sentence => {
      const verdict = ask(sentence.slice(2), context());
      expect({ verdict: verdict.verdict, reason: verdict.reason }).toEqual({
        verdict: verdictOf[sentence.charAt(0)],
        reason: verdict.reason,
      });
      // What is proposed can be pasted: it is read, and it holds.
      if (verdict.nearest !== undefined) {
        const proposed = readClaim(verdict.nearest);
        if ('problem' in proposed)
          throw new Error(`the nearest statement cannot be read: ${verdict.nearest}`);
        expect([verdict.nearest, proposed.claim.check(context()).verdict]).toEqual([
          verdict.nearest,
          'holds',
        ]);
      }
    });
  },
);

test('there are sentences of every kind', () => {
  expect(groups.flatMap(each => each.sentences).length).toBeGreaterThan(1400);
});
