/** Reports in a browser: they fit a phone, are readable by everyone, and need neither a network nor a program. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { text } from 'node:stream/consumers';
import { pathToFileURL } from 'node:url';
import type { AxeResults } from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checkLessonFile } from '../../src/cli/check-lesson-file.js';
import { plainPalette } from '../../src/diagnostics/index.js';
import { analysisFormats, checkFormats } from '../../src/output/index.js';
import { loadScore, scoreLibrary } from '../../src/workshop/index.js';
import { launchBrowser } from './launch.js';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const options = { width: 80, palette: plainPalette, all: false };
let browser: Browser;
let folder = '';

beforeAll(async () => {
  browser = await launchBrowser();
  folder = mkdtempSync(join(tmpdir(), 'barwise-report-'));
  const library = scoreLibrary(false);
  const { report } = await checkLessonFile('sample-lessons/mill-road-with-mistakes.yaml', library);
  writeFileSync(join(folder, 'check.html'), await checkFormats.html({ lessons: [report] }, options));
  const file = 'sample-lessons/long-table.abc';
  const { analysis, diagnostics } = await loadScore(file);
  const scores = [{ file, diagnostics, ...(analysis === undefined ? {} : { analysis }) }];
  writeFileSync(join(folder, 'analyse.html'), await text(analysisFormats.html(scores)));
});
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true });
});

async function open(name: string, width: number, dark: boolean): Promise<{ page: Page; asked: string[] }> {
  const page = await browser.newPage({
    viewport: { width, height: 800 },
    colorScheme: dark ? 'dark' : 'light',
  });
  const asked: string[] = [];
  page.on('request', request => asked.push(request.url()));
  await page.goto(pathToFileURL(join(folder, name)).href);
  return { page, asked: asked.filter(url => !url.startsWith('data:')) };
}

describe.each(['check.html', 'analyse.html'])('%s', name => {
  test.each([
    [1280, false],
    [360, true],
  ])(
    'at %i, dark: %s, fits, breaks no rule of WCAG 2.2 A and AA, asks for nothing else',
    async (width, dark) => {
      const { page, asked } = await open(name, width, dark);
      expect(asked).toEqual([pathToFileURL(join(folder, name)).href]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
      await page.evaluate(axe);
      const results = await page.evaluate(async () => {
        const { axe: runner } = globalThis as unknown as {
          axe: { run: (root: Document) => Promise<AxeResults> };
        };
        return runner.run(document);
      });
      expect(results.passes.length).toBeGreaterThan(8);
      expect(
        results.violations.flatMap(({ id, nodes }) => nodes.map(node => `${id}: ${node.target.join(' ')}`)),
      ).toEqual([]);
      await page.close();
    },
  );
});

describe('the marks in the score', () => {
  test('of a claim that holds come out when its number is gone to, without a script', async () => {
    const { page } = await open('check.html', 1280, false);
    const marks = page.locator('.asked').first();
    const number = /of-(\d+)/.exec((await marks.getAttribute('class')) ?? '')?.[1] ?? '';
    expect(await marks.isVisible()).toBe(false);
    await page.locator(`#claim-${number} .number`).click();
    expect(await marks.isVisible()).toBe(true);
    await page.close();
  });

  test('stand on the heads of their notes', async () => {
    const { page } = await open('check.html', 1280, false);
    // A mark is about twice as wide as a head and goes around the heads of a chord; it begins half its width above the highest.
    const empty = await page.evaluate(
      () =>
        [...document.querySelectorAll<SVGGraphicsElement>('.system .marks .against > path')].filter(mark => {
          const box = mark.getBoundingClientRect();
          const [x, y] = [box.x + box.width / 2, box.y + box.width / 2];
          const shapes = [...(mark.closest('svg')?.querySelectorAll<SVGGraphicsElement>('use, path') ?? [])];
          return !shapes.some(shape => {
            const other = shape.getBoundingClientRect();
            const isHead = other.width < box.width && other.height < box.height && !mark.contains(shape);
            return isHead && other.left <= x && x <= other.right && other.top <= y && y <= other.bottom;
          });
        }).length,
    );
    expect(await page.locator('.system .marks .against').count()).toBeGreaterThan(5);
    expect(empty).toBe(0);
    await page.close();
  });
});
