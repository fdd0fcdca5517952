import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { z } from 'zod';
import { readClaim } from '../../src/claims/index.js';
import { contextOf } from './asking.js';
import { scoreNamed } from './scores.js';

const conventions = z.strictObject({
  'seventh-on-I': z.enum(['major', 'minor']).exactOptional(),
  'inverted-authentic': z.enum(['cadence', 'none']).exactOptional(),
  cadential: z.enum(['I64', 'cad64']).exactOptional(),
  'half-on-V7': z.enum(['cadence', 'none']).exactOptional(),
  'cadence-names': z.enum(['US', 'UK']).exactOptional(),
  'iii-and-vi': z.enum(['tonic', 'prolongation']).exactOptional(),
});
const oneCase = z.strictObject({
  claim: z.string(),
  verdict: z.enum(['holds', 'arguable', 'undecided', 'fails', 'unread']),
  /** What the author of a failing claim got wrong. */
  mistake: z.string().optional(),
  nearest: z.string().optional(),
  /** Words that the reason must contain. */
  reason: z.string().optional(),
  note: z.string().optional(),
  score: z.string().optional(),
  home: z.string().optional(),
  conventions: conventions.optional(),
});
const kind = z.strictObject({
  id: z.string().regex(/^[A-P]\d$/u),
  name: z.string(),
  /** Where the expectations come from; `common practice` where no source is needed. */
  source: z.string().min(1),
  score: z.string(),
  home: z.string(),
  versions: z.array(z.string()).optional(),
  cases: z.array(oneCase),
});
const file = z.strictObject({ scores: z.record(z.string(), z.string()).optional(), kinds: z.array(kind) });

const folder = 'tests/fixtures/claims';
const files = readdirSync(folder)
  .filter(name => name.endsWith('.yaml'))
  .sort()
  .map(name => file.parse(parse(readFileSync(`${folder}/${name}`, 'utf8'))));
const kinds = files.flatMap(each => each.kinds);

const startingWith = (text: string): RegExp =>
  new RegExp(`^${text.replace(/[\\^$.*+?()[\]{}|]/gu, '\\$&')}`, 'u');

describe.each(kinds)('$id $name', ({ score, home, versions = [], cases }) => {
  test.each(cases)('$verdict: $claim', ({ claim, verdict, nearest, reason, ...own }) => {
    const read = readClaim(claim);
    if (verdict === 'unread') {
      expect('problem' in read).toBe(true);
      return;
    }
    if ('problem' in read) throw new Error(`${claim}: ${read.problem.help}`);
    const context = {
      ...contextOf(scoreNamed(own.score ?? score), {
        home: own.home ?? home,
        conventions: own.conventions ?? {},
      }),
      versions: Object.fromEntries(versions.map(name => [`${name}.abc`, scoreNamed(name)])),
    };
    const answer = read.claim.check(context);
    expect({ verdict: answer.verdict, reason: answer.reason }).toEqual({ verdict, reason: answer.reason });
    // What is true elsewhere may follow what is true here.
    if (nearest !== undefined)
      expect(`${answer.nearest ?? ''} and `).toMatch(startingWith(`${nearest} and `));
    if (reason !== undefined) expect(answer.reason).toContain(reason);
    if (answer.nearest !== undefined) {
      const proposed = readClaim(answer.nearest);
      if ('problem' in proposed) throw new Error(`the nearest statement cannot be read: ${answer.nearest}`);
      expect(proposed.claim.check(context).verdict).toBe('holds');
    }
    if (answer.verdict === 'fails') expect(answer.evidence.length + answer.reason.length).toBeGreaterThan(10);
  });
});

describe('the kinds of the trade', () => {
  test('are all there, each with cases that hold, fail and stay undecided', () => {
    const expected = [
      ...['A1', 'A2', 'A3', 'A4', 'A5', 'A6'],
      ...['B1', 'B2', 'B3', 'B4', 'B5', 'B6', 'B7', 'B8', 'B9'],
      ...['C1', 'C2', 'C3', 'C4', 'C5', 'D1', 'D2', 'D3', 'D4', 'D5', 'D6'],
      ...['E1', 'E2', 'E3', 'E4', 'E5', 'F1', 'F2', 'F3', 'F4'],
      ...['G1', 'G2', 'G3', 'G4', 'G5', 'G6', 'H1', 'H2'],
      ...['I1', 'I2', 'I3', 'I4', 'I5', 'I6', 'I7', 'I8', 'I9', 'J1', 'J2', 'J3'],
      ...['K1', 'K2', 'K3', 'K4', 'K5', 'L1', 'L2', 'M1', 'M2', 'M3', 'M4'],
      ...['N1', 'N2', 'N3', 'N4', 'O1', 'O2', 'P1'],
    ];
    expect(kinds.map(each => each.id)).toEqual(expected);
  });

  test.each(kinds.filter(each => each.id !== 'P1'))(
    '$id holds, fails three times and stays undecided',
    ({ cases }) => {
      const count = (verdict: string) => cases.filter(each => each.verdict === verdict).length;
      expect(count('holds')).toBeGreaterThan(0);
      expect(count('undecided')).toBeGreaterThan(0);
      expect(cases.filter(each => each.mistake !== undefined).length).toBeGreaterThanOrEqual(3);
    },
  );

  test('no claim stands twice in one kind', () => {
    for (const { id, cases } of kinds) {
      const asked = cases.map(
        each => `${each.claim} ${JSON.stringify(each.conventions ?? {})} ${each.score ?? ''}`,
      );
      expect([id, new Set(asked).size]).toEqual([id, asked.length]);
    }
  });
});
