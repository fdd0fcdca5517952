/** A score that is engraved line by line looks as one that is engraved at once. */
import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { launchBrowser } from '../../browser/launch.js';

let browser: Browser;
let page: Page;
beforeAll(async () => {
  const built = await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      minify: false,
      lib: { entry: `${import.meta.dirname}/page.ts`, formats: ['iife'], name: 'page' },
    },
  });
  const [bundle] = [built].flat();
  if (bundle === undefined || !('output' in bundle)) throw new Error('nothing was built');
  browser = await launchBrowser();
  page = await browser.newPage();
  await page.setContent('<!doctype html><body></body>');
  await page.addScriptTag({ content: bundle.output[0].code });
});
afterAll(async () => {
  await browser.close();
});

interface Line {
  readonly drawn: Readonly<Record<string, number>>;
}
const engraved = (abc: string, size: number): Promise<readonly Line[]> =>
  page.evaluate(
    ([score, lines]) =>
      (globalThis as unknown as { engraved: (a: string, b: number, c: number) => Line[] }).engraved(
        score,
        420,
        lines,
      ),
    [abc, size] as const,
  );

const bars = (bar: string, count: number): string => Array.from({ length: count }, () => bar).join(' | ');
const sample = (name: string): string =>
  readFileSync(new URL(`../../../sample-lessons/${name}`, import.meta.url), 'utf8');

/** ABC standard 2.1: ties and slurs (4.11), endings (4.9), long decorations (4.14), changes of metre (4.6 and 3.1.6), voices (7). */
it.each([
  ['plain', `X:1\nM:4/4\nL:1/4\nQ:1/4=100\nK:G\n${bars('GABc', 24)} |]`, {}],
  ['ties over every bar line', `X:1\nM:4/4\nL:1/4\nK:C\n${bars('CDEC-', 23)} | C4 |]`, { tie: 23 }],
  [
    'a slur over several lines',
    `X:1\nM:4/4\nL:1/4\nK:C\nCDEF | (CDEF | ${bars('CDEF', 14)} | CDEF) | ${bars('CDEF', 8)} |]`,
    {},
  ],
  [
    'endings over several lines',
    `X:1\nM:4/4\nL:1/4\nK:C\n|: ${bars('CDEF', 4)} |1 ${bars('CDEF', 10)} :|2 ${bars('CDEF', 10)} |]`,
    {},
  ],
  [
    'a mark over several lines',
    `X:1\nM:4/4\nL:1/4\nK:C\nCDEF | !crescendo(!CDEF | ${bars('CDEF', 12)} | !crescendo)!CDEF | ${bars('CDEF', 8)} |]`,
    { dynamics: 4 },
  ],
  [
    'a change of metre and rests that fill a bar',
    `X:1\nM:3/4\nL:1/4\nK:C\n${bars('z3', 9)} | M:4/4\n${bars('z4', 9)} | ${bars('CDEF', 6)} |]`,
    {},
  ],
  [
    'two named voices',
    `X:1\nM:4/4\nL:1/4\n%%score {R L}\nV:R name="Right"\nV:L clef=bass name="Left"\nK:Eb\n[V:R] ${bars('GABc-', 11)} | c4 |]\n[V:L] ${bars('G,,A,,B,,C,', 11)} | C,4 |]`,
    { 'voice-name': 2 },
  ],
  [
    'two voices that change the metre with a line',
    `X:1\nM:4/4\nL:1/4\nK:C\nV:1\n${bars('CDEF', 6)} |\nV:2\n${bars('C4', 6)} |\nV:1\n[M:3/4]${bars('CDE', 6)} |\nV:2\n[M:3/4]${bars('C3', 6)} |\nV:1\n${bars('CDE', 6)} |]\nV:2\n${bars('C3', 6)} |]`,
    { 'time-signature': 4 },
  ],
  ['the sample lesson', sample('mill-road.abc'), {}],
] as const)('%s', async (_, abc, counts) => {
  const [byLine, atOnce] = [await engraved(abc, 1), await engraved(abc, 1000)];
  expect(byLine.length).toBeGreaterThan(2);
  expect(byLine).toEqual(atOnce);
  for (const [kind, least] of Object.entries(counts))
    expect(atOnce.reduce((sum, { drawn }) => sum + (drawn[kind] ?? 0), 0)).toBeGreaterThanOrEqual(least);
});

it('a score in one line of its source is set as one in many', async () => {
  const inOne = await engraved(`X:1\nM:4/4\nL:1/4\nK:G\n${bars('GABc', 40)} |]`, 4);
  const inTen = await engraved(
    `X:1\nM:4/4\nL:1/4\nK:G\n${Array.from({ length: 10 }, () => bars('GABc', 4)).join(' |\n')} |]`,
    4,
  );
  const counts = (lines: readonly Line[]): readonly (number | undefined)[] =>
    lines.map(({ drawn }) => drawn.note);
  expect(counts(inOne).length).toBeGreaterThan(5);
  expect(counts(inOne)).toEqual(counts(inTen));
});
