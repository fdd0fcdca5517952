import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { build } from 'vite';
import type { PlayerBundle, WalkthroughInput } from '../../src/output/index.js';
import { buildWalkthrough } from '../../src/output/walkthrough.js';
import type { PageData, Timeline } from '../../src/timeline/index.js';
import { built } from '../built.js';

/** The player as it is in the sources now, so that no test runs against an old build. */
export async function bundlePlayer(): Promise<PlayerBundle> {
  const [madeScript, madeStyle] = [built('player/player.js'), built('player/player.css')];
  if (madeScript !== undefined && madeStyle !== undefined)
    return { script: readFileSync(madeScript, 'utf8'), style: readFileSync(madeStyle, 'utf8') };
  const results = await build({ logLevel: 'error', build: { write: false } });
  const files = [results].flat().flatMap(result => ('output' in result ? result.output : []));
  const script = files.find(file => file.type === 'chunk');
  const style = files.find(file => file.type === 'asset' && file.fileName.endsWith('.css'));
  if (script?.type !== 'chunk' || style?.type !== 'asset') throw new Error('the player was not built');
  return { script: script.code, style: String(style.source) };
}

/** Writes the walkthrough into a folder of its own and returns the address of its page. */
export function writePage(input: WalkthroughInput): string {
  const folder = mkdtempSync(join(tmpdir(), 'barwise-page-'));
  for (const { name, bytes } of buildWalkthrough(input)) writeFileSync(join(folder, name), bytes);
  return pathToFileURL(join(folder, `${input.name}.html`)).href;
}

export interface OpenPage {
  readonly page: Page;
  /** Everything that the browser reported: errors, warnings, uncaught exceptions. */
  readonly reports: readonly string[];
  /** Addresses of everything that was requested apart from the page itself and data that it carries. */
  readonly requests: readonly string[];
}

export interface OpenOptions {
  readonly width?: number;
  readonly height?: number;
  readonly dark?: boolean;
  readonly reducedMotion?: boolean;
}

/** Opens a page and waits until it can be used. */
export async function openPage(
  browser: Browser,
  address: string,
  options: OpenOptions = {},
): Promise<OpenPage> {
  const { width = 1280, height = 800, dark = false, reducedMotion = false } = options;
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: dark ? 'dark' : 'light',
    reducedMotion: reducedMotion ? 'reduce' : 'no-preference',
  });
  const page = await context.newPage();
  const reports: string[] = [];
  const requests: string[] = [];
  page.on('console', message => {
    if (message.type() !== 'log') reports.push(`${message.type()}: ${message.text()}`);
  });
  page.on('pageerror', error => reports.push(`exception: ${error.message}`));
  page.on('request', request => {
    const url = request.url();
    if (url !== address && !url.startsWith('data:')) requests.push(url);
  });
  await page.goto(address);
  await page.waitForSelector('html[data-ready]');
  return { page, reports, requests };
}

/** The schedule that the page plays by. */
export async function timelineOf(page: Page): Promise<Timeline> {
  const text = await page.locator('#page-data').textContent();
  return (JSON.parse(text ?? '') as PageData).timeline;
}
