import type { Browser, JSHandle, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll } from 'vitest';
import { serve, studioFiles } from '../../src/workshop/index.js';
import { launchBrowser } from '../browser/launch.js';
import { bench } from '../workshop/bench.js';
import type { Bench } from '../workshop/bench.js';
import { windowFiles } from './window-files.js';

let browser: Browser;
let files: string;
beforeAll(async () => {
  files = await windowFiles();
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
});

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

/** The workshop's window in a real browser, over the real host. */
export interface StudioWindow {
  readonly page: Page;
  readonly on: Bench;
  /** What the page has complained of. */
  readonly reports: readonly string[];
}

/** Shows the window of a host, as it is before it has opened anything. */
export async function windowOf(on: Bench): Promise<StudioWindow> {
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
  return { page, on, reports };
}

/** Waits until the lesson stands there with its score and its verdicts. */
export async function isOpen(page: Page): Promise<void> {
  await page.waitForSelector('html[data-ready="true"]');
  await page.waitForSelector('.claim-row');
  await page.waitForSelector('.score-pane svg.system');
}

/** A window with the sample lesson in it, in a folder of its own. */
export async function opened(prepare: (on: Bench) => void = () => undefined): Promise<StudioWindow> {
  const on = await bench();
  prepare(on);
  const shown = await windowOf(await on.again({ lesson: on.lesson }));
  await isOpen(shown.page);
  return shown;
}

/** The editor behind the page, as far as tests need it. */
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

/** The lesson's text as it stands in the window. */
export const text = async (page: Page): Promise<string> =>
  (await editor(page)).evaluate(({ state }) => state.doc.toString());

/** Writes other words for the first ones of a kind, as typing over them does. */
export const edit = async (page: Page, from: string, to: string): Promise<void> =>
  (await editor(page)).evaluate(
    (view, [before, after]) => {
      const at = view.state.doc.toString().indexOf(before);
      if (at < 0) throw new Error(`no ${before}`);
      view.dispatch({ changes: { from: at, to: at + before.length, insert: after } });
    },
    [from, to] as const,
  );

export const cursorBehind = async (page: Page, words: string): Promise<void> =>
  (await editor(page)).evaluate((view, before) => {
    const at = view.state.doc.toString().indexOf(before);
    if (at < 0) throw new Error(`no ${before}`);
    view.dispatch({ selection: { anchor: at + before.length } });
  }, words);

/** `saved` or `not saved`. */
export const state = (page: Page): Promise<string | null> =>
  page.locator('.bar .quiet').first().textContent();

export const isSaved = async (page: Page): Promise<void> => {
  await page.waitForFunction(() => document.querySelector('.bar .quiet')?.textContent === 'saved');
};
