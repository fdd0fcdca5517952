/** Lists the kinds of claims with the number of their test cases by verdict: `npx tsx scripts/list-claim-kinds.ts`. */
import { readFileSync, readdirSync } from 'node:fs';
import { parse } from 'yaml';
import { z } from 'zod';

const file = z.object({
  kinds: z.array(
    z.object({
      id: z.string(),
      name: z.string(),
      cases: z.array(z.object({ verdict: z.string(), mistake: z.string().optional() })),
    }),
  ),
});
const folder = 'tests/fixtures/claims';
const verdicts = ['holds', 'arguable', 'undecided', 'fails'] as const;

const kinds = readdirSync(folder)
  .filter(name => name.endsWith('.yaml'))
  .sort()
  .flatMap(name => file.parse(parse(readFileSync(`${folder}/${name}`, 'utf8'))).kinds);

const row = (id: string, name: string, cells: readonly string[]): string =>
  [id.padEnd(4), name.padEnd(44), ...cells.map(cell => cell.padStart(10))].join('');

console.log(row('', 'kind', [...verdicts, 'mistakes']));
for (const { id, name, cases } of kinds) {
  const counts = verdicts.map(verdict => cases.filter(each => each.verdict === verdict).length);
  const mistakes = cases.filter(each => each.mistake !== undefined).length;
  console.log(row(id, name, [...counts, mistakes].map(String)));
}
const all = kinds.flatMap(kind => kind.cases);
const totals = verdicts.map(verdict => all.filter(each => each.verdict === verdict).length);
console.log(
  row(
    '',
    `${String(kinds.length)} kinds`,
    [...totals, all.filter(each => each.mistake !== undefined).length].map(String),
  ),
);
