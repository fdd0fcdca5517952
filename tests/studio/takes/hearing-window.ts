import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll } from 'vitest';
import { serve, studioFiles } from '../../../src/workshop/index.js';
import { launchBrowser } from '../../browser/launch.js';
import type { Bench } from '../../workshop/bench.js';
import { windowFiles } from '../window-files.js';

export interface HearingWindow {
  readonly page: Page;
  /** Errors and warnings of the page. */
  readonly reports: readonly string[];
}

export interface WindowOptions {
  /** What the microphone hears. */
  readonly heard?: Buffer;
  /** Of Chromium, instead of those for a microphone that is there and allowed. */
  readonly flags?: readonly string[];
  readonly look?: BrowserContextOptions;
}

const withMicrophone = ['--use-fake-ui-for-media-stream', '--use-fake-device-for-media-stream'];

/**
 * @returns opens the workshop's window over a host, in a browser whose microphone hears a file
 */
export function hearingWindows(): (on: Bench, options?: WindowOptions) => Promise<HearingWindow> {
  let folder: string;
  let files: string;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'barwise-narration-'));
    files = await windowFiles();
  });
  const browsers = new Map<string, Browser>();
  afterAll(async () => {
    for (const browser of browsers.values()) await browser.close();
    rmSync(folder, { recursive: true });
  });
  const closing: (() => Promise<void>)[] = [];
  afterEach(async () => {
    for (const close of closing.splice(0).reverse()) await close();
  });
  /** What a browser hears is settled when it starts: one for each thing that is heard, kept for the tests that follow. */
  const hearing = async (heard: Buffer | undefined, flags: readonly string[]): Promise<Browser> => {
    const hash = heard === undefined ? '' : createHash('sha256').update(heard).digest('hex');
    const key = `${hash} ${flags.join(' ')}`;
    const running = browsers.get(key);
    if (running?.isConnected() === true) return running;
    const file = join(folder, `${hash}.wav`);
    if (heard !== undefined) writeFileSync(file, heard);
    const browser = await launchBrowser([
      ...flags,
      ...(heard === undefined ? [] : [`--use-file-for-fake-audio-capture=${file}`]),
    ]);
    browsers.set(key, browser);
    return browser;
  };
  return async (on, { heard, flags = withMicrophone, look = {} } = {}) => {
    const browser = await hearing(heard, flags);
    const served = await serve(on.host, studioFiles(files), 0);
    const context = await browser.newContext({ viewport: { width: 1600, height: 900 }, ...look });
    closing.push(served.close, () => context.close());
    const page = await context.newPage();
    const reports: string[] = [];
    page.on('console', message => {
      if (message.type() === 'error' || message.type() === 'warning') reports.push(message.text());
    });
    page.on('pageerror', error => reports.push(error.message));
    await page.goto(served.url);
    await page.waitForSelector('html[data-ready="true"]');
    await page.waitForFunction(() => document.querySelectorAll('.claim-row.is-holds').length > 0);
    return { page, reports };
  };
}
