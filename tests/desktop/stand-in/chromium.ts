import { createServer as createHttpServer } from 'node:http';
import { createServer } from 'node:net';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import type { BrowserContext } from 'playwright-core';
import { browserFlags, browserPrograms } from '../../browser/launch.js';
import { tell } from './talk.js';

/** What stands for the shell's own scheme in Chromium, which knows no scheme that is made up while it runs. */
let shown = '';
const own = 'barwise://studio/';

export const toShown = (address: string): string =>
  address.startsWith(own) ? shown + address.slice(own.length) : address;
export const toOwn = (address: string): string =>
  shown !== '' && address.startsWith(shown) ? own + address.slice(shown.length) : address;

/**
 * Opens the origin that stands for the scheme: a server of this process, since what a browser's tools intercept leaves out the programs of
 * worklets. A name below `localhost` is as secure as the scheme (Secure Contexts, 3.1).
 */
export async function openOrigin(answer: (request: Request) => Promise<Response>): Promise<void> {
  const server = createHttpServer((asked, reply) => {
    answer(new Request(own + (asked.url ?? '/').slice(1), { method: asked.method ?? 'GET' }))
      .then(async response => {
        reply.writeHead(response.status, Object.fromEntries(response.headers));
        reply.end(Buffer.from(await response.arrayBuffer()));
      })
      .catch(() => reply.destroy());
  });
  await new Promise<void>(done => server.listen(0, '127.0.0.1', done));
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('the server has no port');
  shown = `http://studio.localhost:${String(address.port)}/`;
}

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
  const heard = process.env['BARWISE_TEST_HEARD'];
  for (const { path } of await browserPrograms()) {
    try {
      const context = await chromium.launchPersistentContext(folder, {
        executablePath: path,
        headless: true,
        args: [
          ...browserFlags,
          `--remote-debugging-port=${String(port)}`,
          '--use-fake-device-for-media-stream',
          // The shell has been asked before Chromium is.
          '--use-fake-ui-for-media-stream',
          ...(heard === undefined ? [] : [`--use-file-for-fake-audio-capture=${heard}`]),
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
