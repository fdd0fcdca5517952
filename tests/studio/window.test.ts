/** The workshop's window in a real browser over the real host: what an author types, sees and finds on disk. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Browser, JSHandle, Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { serve, studioFiles } from '../../src/workshop/index.js';
import { launchBrowser } from '../browser/launch.js';
import { bench, root } from '../workshop/bench.js';
import type { Bench } from '../workshop/bench.js';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let browser: Browser;
let files: string;
beforeAll(async () => {
  files = `${mkdtempSync(join(tmpdir(), 'barwise-studio-'))}/`;
  // The window as it is in the sources now, so that no test runs against an old build.
  await build({
    configFile: `${root}vite.studio.config.ts`,
    root: `${root}src/studio`,
    logLevel: 'error',
    build: { outDir: files, emptyOutDir: true },
  });
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
  rmSync(files, { recursive: true });
});

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

interface Window {
  readonly page: Page;
  readonly on: Bench;
  readonly reports: readonly string[];
}

async function windowOf(on: Bench): Promise<Window> {
  const served = await serve(on.host, studioFiles(files), 0);
  const context = await browser.newContext({ viewport: { width: 1500, height: 900 } });
  const page = await context.newPage();
  const reports: string[] = [];
  page.on('console', message => {
    if (message.type() === 'error' || message.type() === 'warning') reports.push(message.text());
  });
  page.on('pageerror', error => reports.push(error.message));
  closing.push(served.close, () => context.close());
  await page.goto(served.url);
  await page.waitForSelector('html[data-ready="true"]');
  await page.waitForFunction(() => document.querySelectorAll('.claim-row.is-holds').length > 0);
  return { page, on, reports };
}

const opened = async (): Promise<Window> => {
  const on = await bench();
  return windowOf(await on.again({ lesson: on.lesson }));
};

const counts = (page: Page): Promise<string | null> => page.locator('.counts').textContent();

/** The editor behind the page, as far as these tests need it. */
interface EditorLike {
  readonly state: { readonly doc: { readonly toString: () => string } };
  readonly dispatch: (change: object) => void;
}
const editor = (page: Page): Promise<JSHandle<EditorLike>> =>
  page.evaluateHandle(() => {
    const content = document.querySelector('.cm-content') as unknown as {
      readonly cmTile?: { readonly view: EditorLike };
    };
    if (content.cmTile === undefined) throw new Error('the editor is not where it was');
    return content.cmTile.view;
  });
const text = async (page: Page): Promise<string> =>
  (await editor(page)).evaluate(({ state }) => state.doc.toString());
const edit = async (page: Page, from: string, to: string): Promise<void> =>
  (await editor(page)).evaluate(
    (view, [before, after]) => {
      const at = view.state.doc.toString().indexOf(before);
      if (at < 0) throw new Error(`no ${before}`);
      view.dispatch({ changes: { from: at, to: at + before.length, insert: after } });
    },
    [from, to] as const,
  );
const cursorBehind = async (page: Page, words: string): Promise<void> =>
  (await editor(page)).evaluate((view, before) => {
    const at = view.state.doc.toString().indexOf(before);
    if (at < 0) throw new Error(`no ${before}`);
    view.dispatch({ selection: { anchor: at + before.length } });
  }, words);

describe('the window', () => {
  it('checks while the author types, and writes the nearest true sentence', async () => {
    const { page, reports } = await opened();
    expect(await counts(page)).toBe('0 fails · 0 undecided · 0 arguable · 60 holds');
    await edit(page, '{bar 2 is V43}', '{bar 2 is V65}');
    await page.waitForSelector('.claim-row.is-fails');
    expect(await page.locator('.claim-row.is-fails .sentence').textContent()).toBe('bar 2 is V65');
    expect(await page.locator('.claim-row.is-fails .nearest').textContent()).toBe('nearest: bar 2 is V43');
    await page.locator('.claim-row.is-fails').click();
    await page.locator('.cm-lintRange-error').first().hover();
    await page.getByRole('button', { name: 'write: bar 2 is V43' }).click();
    await page.waitForFunction(() => document.querySelector('.is-fails') === null);
    expect(reports).toEqual([]);
  });

  it('tells what stands in the bars that the keyboard chooses, and writes a claim that holds', async () => {
    const { page } = await opened();
    await page.locator('.score-pane .sheet').focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await page.waitForSelector('.told h2');
    expect(await page.locator('.told h2').textContent()).toBe('Bar 1 write 1');
    expect(await page.locator('.harmonies li').first().textContent()).toMatch(/^bar 1 Bm, i in B minor/);
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    await page.waitForFunction(() => document.querySelector('.told h2')?.textContent?.startsWith('Bars 1-3'));
    await page.keyboard.press('Shift+ArrowLeft');
    await page.waitForFunction(() => document.querySelector('.told h2')?.textContent?.startsWith('Bars 1-2'));
    expect(await page.locator('.offers button').allTextContents()).toEqual(
      expect.arrayContaining(['bars 1-2 are in B minor', 'bar 1 is i', 'bar 2 is V43']),
    );
    const before = await text(page);
    await page.locator('.offers button', { hasText: /^bars 1-2 are in B minor$/ }).click();
    await page.waitForFunction(() => document.querySelector('.counts')?.textContent?.includes('61 holds'));
    // The cursor stands at the top: the first step has no claims of its own yet.
    expect(await text(page)).toBe(
      before.replace(
        '    show: [keys]\n',
        '    show: [keys]\n    claims:\n      - bars 1-2 are in B minor\n',
      ),
    );
    await page.keyboard.press('Control+z');
    expect(await text(page)).toBe(before);
  });

  it('lets bars be dragged over, and writes them where the text awaits a bar', async () => {
    const { page } = await opened();
    const before = await text(page);
    const centre = async (index: number): Promise<readonly [number, number]> => {
      const box = await page.locator('.score-pane svg.system').nth(index).boundingBox();
      if (box === null) throw new Error('no line of the score');
      return [box.x + box.width / 2, box.y + box.height / 3];
    };
    const drag = async (): Promise<string> => {
      await page.mouse.move(...(await centre(0)));
      await page.mouse.down();
      await page.mouse.move(...(await centre(1)), { steps: 4 });
      await page.mouse.up();
      await page.waitForSelector('.told h2');
      return /^Bars (\d+-\d+) /.exec((await page.locator('.told h2').textContent()) ?? '')?.[1] ?? '';
    };
    const range = await drag();
    expect(range).toMatch(/^[12]-[67]$/);
    expect(await text(page)).toBe(before);

    await edit(page, '    bars: 1-3\n', '    bars: \n');
    await cursorBehind(page, 'A stair in the bass\n    bars: ');
    await drag();
    expect(await text(page)).toBe(before.replace('    bars: 1-3\n', `    bars: ${range}\n`));
    // Another choice takes its place; a third one, after something was typed, does not.
    await page.mouse.click(...(await centre(0)));
    const single = /^Bar (\d+) /.exec((await page.locator('.told h2').textContent()) ?? '')?.[1] ?? '';
    expect(await text(page)).toBe(before.replace('    bars: 1-3\n', `    bars: ${single}\n`));
    await page.locator('.cm-content').focus();
    await page.keyboard.type(' ');
    await page.mouse.click(...(await centre(1)));
    expect(await text(page)).toBe(before.replace('    bars: 1-3\n', `    bars: ${single} \n`));
  });

  it('saves whole files, and asks when another program has written meanwhile', async () => {
    const { page, on } = await opened();
    await edit(page, 'title: The way home by the mill road', 'title: The way home');
    await page.keyboard.press('Control+s');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.waitForFunction(() => document.querySelector('.bar .quiet')?.textContent === 'saved');
    const saved = readFileSync(on.lesson, 'utf8');
    expect(saved).toContain('title: The way home\n');

    await edit(page, 'title: The way home', 'title: My way home');
    writeFileSync(on.lesson, saved.replace('title: The way home', 'title: Their way home'));
    await page.getByRole('heading', { name: 'Another program has changed this file' }).waitFor();
    await page.getByRole('button', { name: 'Keep what is here and write it' }).click();
    await page.waitForFunction(() => document.querySelector('.bar .quiet')?.textContent === 'saved');
    expect(readFileSync(on.lesson, 'utf8')).toContain('title: My way home\n');
  });

  it('offers unsaved work again after the window has died', async () => {
    const { page, on } = await opened();
    await edit(page, 'title: The way home by the mill road', 'title: Not yet saved');
    await page.waitForTimeout(1500);
    await page.context().close();
    const second = await windowOfAsking(await on.again({ lesson: on.lesson }));
    await second.getByRole('button', { name: 'Go on with the unsaved work' }).click();
    await second.waitForFunction(() =>
      document.querySelector('.cm-content')?.textContent?.includes('Not yet saved'),
    );
    expect(readFileSync(on.lesson, 'utf8')).not.toContain('Not yet saved');
  });

  it("shows the student's page", async () => {
    const { page } = await opened();
    await page.waitForFunction(() => (document.querySelector('iframe')?.src ?? '') !== '');
    const frame = page.frameLocator('iframe');
    await frame.getByRole('heading', { name: 'The way home by the mill road' }).waitFor();
  });

  it('is free of violations that axe-core finds', async () => {
    const { page } = await opened();
    await page.evaluate(axe);
    const broken = await page.evaluate(async () => {
      const { axe: runner } = globalThis as unknown as {
        axe: { run: (root: Document, options: object) => Promise<AxeResults> };
      };
      // The student's page inside the frame has tests of its own.
      const { violations } = await runner.run(document, { iframes: false });
      return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 120)}`));
    });
    expect(broken).toEqual([]);
  });
});

async function windowOfAsking(on: Bench): Promise<Page> {
  const served = await serve(on.host, studioFiles(files), 0);
  const context = await browser.newContext({ viewport: { width: 1500, height: 900 } });
  closing.push(served.close, () => context.close());
  const page = await context.newPage();
  await page.goto(served.url);
  return page;
}
