import { existsSync } from 'node:fs';
import bundled from '@sparticuz/chromium';
import { chromium, type Browser } from 'playwright-core';

/** Quiet, offline and without a sandbox: tests run as root in containers. */
export const browserFlags: readonly string[] = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--autoplay-policy=user-gesture-required',
];

/** Every Chromium that might start, the likeliest first. */
export async function browserPrograms(): Promise<
  readonly { readonly path: string; readonly from: string }[]
> {
  const named = process.env['CHROMIUM'];
  if (named !== undefined && named !== '') return [{ path: named, from: '$CHROMIUM' }];
  const found: { path: string; from: string }[] = [];
  try {
    found.push({ path: await bundled.executablePath(), from: 'the npm package @sparticuz/chromium' });
  } catch {
    // The package carries a browser for Linux on x64 only; elsewhere an installed one has to do.
  }
  for (const path of ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'])
    if (existsSync(path)) found.push({ path, from: 'the system' });
  return found;
}

/** The bundled browser unpacks itself at its first start; a second process that comes meanwhile finds half of it. */
const attempts = 3;
const pause = (milliseconds: number): Promise<void> =>
  new Promise(resolve => setTimeout(resolve, milliseconds));

/**
 * Starts a Chromium for tests and benchmarks: `$CHROMIUM` where it is set, else the one inside the npm package, else
 * an installed one. Throws with everything that was tried where none starts.
 *
 * @param more flags beyond those of every test
 */
export async function launchBrowser(more: readonly string[] = []): Promise<Browser> {
  const tried = new Set<string>();
  for (let attempt = 1; attempt <= attempts; attempt++) {
    for (const { path, from } of await browserPrograms()) {
      try {
        return await chromium.launch({
          executablePath: path,
          args: [...browserFlags, ...more],
          headless: true,
        });
      } catch (error) {
        const reason = error instanceof Error ? (error.message.split('\n')[0] ?? '') : String(error);
        tried.add(`${path} (${from}): ${reason}`);
      }
    }
    await pause(1500);
  }
  throw new Error(
    [
      'no browser starts; set CHROMIUM to the path of a Chromium (Debian: apt-get install chromium)',
      ...tried,
    ].join('\n  '),
  );
}
