import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { claim } from '../../src/claims/sentence.js';
import { exampleFamilies } from '../../src/claims/examples.js';
import { printGrammar } from '../../src/claims/grammar/index.js';
import { readClaim, defaultConventions } from '../../src/claims/index.js';
import { lookUpCode } from '../../src/diagnostics/index.js';
import { sourceText } from '../../src/diagnostics/index.js';
import { analyse } from '../../src/harmony/index.js';
import type { Analysis } from '../../src/harmony/index.js';
import { readScore } from '../../src/score/index.js';
import { contextOf } from './asking.js';

const reference = readFileSync('lesson-schema/claim-language.md', 'utf8');

interface Example {
  readonly score: string;
  readonly home: string;
  readonly verdict: string;
  readonly sentence: string;
}

/** Blocks such as ```` ```claims mill-road B minor ````: a verdict and a sentence on each line. */
const examples: readonly Example[] = [
  ...reference.matchAll(/^```claims (\S+) ([^\n]+)\n([^`]*)^```$/gmu),
].flatMap(([, score = '', home = '', lines = '']) =>
  lines
    .trim()
    .split('\n')
    .map(line => ({ score, home, verdict: line.slice(0, 11).trim(), sentence: line.slice(11).trim() })),
);

const analysed = new Map<string, Analysis>();

/** A sample piece; `altered.abc` is the waltz with A natural for A sharp in bar 8. */
function analysisOf(name: string): Analysis {
  const known = analysed.get(name);
  if (known !== undefined) return known;
  const abc = readFileSync(`sample-lessons/${name === 'altered' ? 'mill-road' : name}.abc`, 'utf8');
  const text = name === 'altered' ? abc.replace('!>)!^A4)', '!>)!A4)') : abc;
  expect(name === 'altered' && text === abc).toBe(false);
  const made = analyse(readScore(sourceText(`${name}.abc`, text)).value);
  analysed.set(name, made);
  return made;
}

describe('the reference of the claim language', () => {
  test.each(examples)('$verdict: $sentence', ({ score, home, verdict, sentence }) => {
    const read = readClaim(sentence);
    if ('problem' in read) throw new Error(`${sentence}: ${read.problem.help}`);
    const context = {
      ...contextOf(analysisOf(score), { home }),
      versions: { 'altered.abc': analysisOf('altered') },
    };
    const answer = read.claim.check(context);
    expect({ verdict: answer.verdict, reason: answer.reason }).toEqual({ verdict, reason: answer.reason });
    expect(lookUpCode(answer.code)).toBeDefined();
  });

  test('has an example of every verdict and of every family', () => {
    expect([...new Set(examples.map(({ verdict }) => verdict))].sort()).toEqual([
      'arguable',
      'fails',
      'holds',
      'undecided',
    ]);
    const said = new Set(
      examples.flatMap(({ sentence }) => {
        const read = readClaim(sentence);
        if ('problem' in read) return [];
        return (read.claim.parts ?? [read.claim]).map(part => JSON.stringify(part.content));
      }),
    );
    const missing = exampleFamilies.filter(
      name => ![...said].some(content => content.includes(`"says":${JSON.stringify(name)}`)),
    );
    expect(missing).toEqual([]);
  });

  test('names every convention with its default', () => {
    for (const [name, value] of Object.entries(defaultConventions))
      expect(reference).toMatch(new RegExp(`^\\| \`${name}\`\\s+\\| \`${value}\``, 'mu'));
  });

  // Written anew with `npx vitest run tests/claims/reference.test.ts --update`.
  test('stands beside the grammar that the parser prints', async () => {
    await expect(printGrammar(claim.shape)).toMatchFileSnapshot('../../lesson-schema/claim-language.ebnf');
  });
});
