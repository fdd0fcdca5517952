import { createServer } from 'node:net';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import type { BrowserContext } from 'playwright-core';
import { browserFlags, browserPrograms } from '../../browser/launch.js';
import { tell } from './talk.js';

/** Chromium knows no scheme that is made up while it runs: the shell's own is shown to it as an origin that exists nowhere else. */
const shown = 'https://studio.barwise-shell.test/';
const own = 'barwise://studio/';

export const toShown = (address: string): string =>
  address.startsWith(own) ? shown + address.slice(own.length) : address;
export const toOwn = (address: string): string =>
  address.startsWith(shown) ? own + address.slice(shown.length) : address;

function freePort(): Promise<number> {
  return new Promise(done => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => {
        done(address === null || typeof address === 'string' ? 0 : address.port);
      });
    });
  });
}

/** Starts the browser in which windows are shown, and tells the test where it can reach it. */
export async function startBrowser(): Promise<BrowserContext> {
  const folder = mkdtempSync(join(tmpdir(), 'barwise-shell-browser-'));
  process.on('exit', () => {
    rmSync(folder, { recursive: true, force: true });
  });
  const port = await freePort();
  const tried: string[] = [];
  for (const { path } of await browserPrograms()) {
    try {
      const context = await chromium.launchPersistentContext(folder, {
        executablePath: path,
        headless: true,
        permissions: ['microphone'],
        args: [
          ...browserFlags,
          `--remote-debugging-port=${String(port)}`,
          '--use-fake-device-for-media-stream',
        ],
      });
      tell({ kind: 'browser', port });
      return context;
    } catch (error) {
      tried.push(`${path}: ${String(error)}`);
    }
  }
  throw new Error(`no browser starts\n${tried.join('\n')}`);
}
