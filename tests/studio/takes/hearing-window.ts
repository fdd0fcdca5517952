import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BrowserContextOptions, Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, afterEach, beforeAll } from 'vitest';
import { serve, studioFiles } from '../../../src/workshop/index.js';
import { launchBrowser } from '../../browser/launch.js';
import { root } from '../../workshop/bench.js';
import type { Bench } from '../../workshop/bench.js';

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
 * Builds the workshop's window as it is in the sources now.
 * @returns opens it over a host, in a browser of its own whose microphone hears a file
 */
export function hearingWindows(): (on: Bench, options?: WindowOptions) => Promise<HearingWindow> {
  let folder: string;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'barwise-narration-'));
    await build({
      configFile: `${root}vite.studio.config.ts`,
      root: `${root}src/studio`,
      logLevel: 'error',
      build: { outDir: join(folder, 'studio'), emptyOutDir: true },
    });
  });
  afterAll(() => {
    rmSync(folder, { recursive: true });
  });
  const closing: (() => Promise<void>)[] = [];
  afterEach(async () => {
    for (const close of closing.splice(0).reverse()) await close();
  });
  return async (on, { heard, flags = withMicrophone, look = {} } = {}) => {
    const file = join(folder, 'heard.wav');
    if (heard !== undefined) writeFileSync(file, heard);
    const browser = await launchBrowser([
      ...flags,
      ...(heard === undefined ? [] : [`--use-file-for-fake-audio-capture=${file}`]),
    ]);
    const served = await serve(on.host, studioFiles(`${folder}/studio/`), 0);
    closing.push(served.close, () => browser.close());
    const context = await browser.newContext({ viewport: { width: 1600, height: 900 }, ...look });
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
