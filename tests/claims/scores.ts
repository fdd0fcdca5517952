import { readFileSync, readdirSync } from 'node:fs';
import { parse } from 'yaml';
import { z } from 'zod';
import { sourceText } from '../../src/diagnostics/index.js';
import { analyse } from '../../src/harmony/index.js';
import type { Analysis } from '../../src/harmony/index.js';
import { readScore } from '../../src/score/index.js';

const folder = 'tests/fixtures/claims';
const scores = z.object({ scores: z.record(z.string(), z.string()).optional() });
const named = readdirSync(folder).flatMap(name =>
  Object.entries(scores.parse(parse(readFileSync(`${folder}/${name}`, 'utf8'))).scores ?? {}),
);
const snippets = new Map(named);
if (snippets.size < named.length)
  throw new Error(
    `two scores of ${folder} have one name: ${named
      .map(([name]) => name)
      .filter((name, at, all) => all.indexOf(name) < at)
      .join(', ')}`,
  );
const analysed = new Map<string, Analysis>();

/** The analysis of a score of the fixtures, or of the sample lessons; each is made once. */
export function scoreNamed(name: string): Analysis {
  const known = analysed.get(name);
  if (known !== undefined) return known;
  const abc = snippets.get(name) ?? readFileSync(`sample-lessons/${name}.abc`, 'utf8');
  const made = analyse(readScore(sourceText(`${name}.abc`, abc)).value);
  analysed.set(name, made);
  return made;
}
