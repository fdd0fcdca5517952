import { createServer, type Server } from 'node:http';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'puppeteer-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { firefoxProgram, launchFirefox } from './launch-firefox.js';
import { bundlePlayer, writePage } from './open-page.js';
import { practiceLesson } from './practice-lesson.js';

const program = firefoxProgram();
if (program === undefined)
  process.stdout.write(
    'NOT RUN: the page in Firefox. None is installed (Debian: apt-get install firefox-esr; elsewhere set FIREFOX to its path).\n',
  );

describe.skipIf(program === undefined)('the page in Firefox', () => {
  let browser: Browser;
  /** A Firefox that refuses every storage: the setting "block all cookies" of its privacy page. */
  let refusing: Browser;
  let server: Server;
  const addresses = { file: '', http: '' };

  beforeAll(async () => {
    const path = program ?? '';
    [browser, refusing] = await Promise.all([
      launchFirefox(path),
      launchFirefox(path, { 'network.cookie.cookieBehavior': 2 }),
    ]);
    addresses.file = writePage(await practiceLesson(await bundlePlayer()));
    const html = readFileSync(fileURLToPath(addresses.file));
    server = createServer((_, response) => {
      response.setHeader('content-type', 'text/html');
      response.end(html);
    });
    await new Promise<void>(resolve => server.listen(0, '127.0.0.1', resolve));
    const address = server.address();
    if (typeof address === 'object' && address !== null)
      addresses.http = `http://127.0.0.1:${address.port}/lesson.html`;
  });
  afterAll(async () => {
    await Promise.all([browser.close(), refusing.close()]);
    server.close();
  });

  /** Opens the page; `reports` gathers errors, warnings and everything that the page's policy stops. */
  async function open(
    from: Browser,
    address: string,
  ): Promise<{ page: Page; reports: () => Promise<string[]> }> {
    const page = await from.newPage();
    await page.setViewport({ width: 1280, height: 800 });
    const told: string[] = [];
    page.on('console', message => told.push(`${message.type()}: ${message.text()}`));
    page.on('pageerror', error => told.push(`exception: ${String(error)}`));
    await page.evaluateOnNewDocument(() => {
      const stopped: string[] = [];
      Object.assign(globalThis, { stopped });
      addEventListener('securitypolicyviolation', event => {
        stopped.push(`policy: ${event.effectiveDirective} ${event.blockedURI}`);
      });
    });
    await page.goto(address);
    await page.waitForSelector('html[data-ready]');
    return {
      page,
      reports: async () => [
        ...told,
        ...(await page.evaluate(() => (globalThis as unknown as { stopped: string[] }).stopped)),
      ],
    };
  }
  const textOf = (page: Page, selector: string): Promise<string> =>
    page.$eval(selector, element => element.textContent);
  /** By the words on the button; roles as assistive technology sees them take Firefox seconds to tell. */
  const press = (page: Page, words: string): Promise<void> =>
    page.locator(`::-p-xpath(//button[normalize-space()="${words}" or @aria-label="${words}"])`).click();

  test.each(['file', 'http'] as const)(
    'opened by %s it plays, marks, steps, asks and reports nothing',
    async scheme => {
      const { page, reports } = await open(browser, addresses[scheme]);
      expect(await textOf(page, 'h1')).toBe('How the ferry leaves the bank');
      expect(await page.$$eval('.label-numerals', all => all.map(one => one.textContent))).toEqual([
        'i',
        'i',
        'i',
        'V7',
        'i',
      ]);

      await page.click('.transport-play');
      await page.waitForFunction(() => document.querySelectorAll('.sounding').length === 2);
      expect(await page.$$eval('.sounding', all => all.map(one => one.getAttribute('data-name')))).toEqual([
        'd',
        'D,',
      ]);
      expect(await page.$$eval('.bar-now rect', all => all.length)).toBe(2);
      expect(await textOf(page, '.notice')).toBe('');
      await page.click('.transport-play');

      await press(page, 'Next step');
      expect(await textOf(page, '[aria-current=step] .step-title')).toBe('Step 2: Out on the water');
      expect(await page.$$eval('.label', all => all.length)).toBe(0);
      await press(page, 'B flat');
      expect(await textOf(page, '.step.current .feedback')).toContain('Not quite');
      await press(page, 'C sharp');
      expect(await textOf(page, '.step.current .feedback')).toContain('Yes. C sharp');
      expect(await page.$$eval('.label-numerals', all => all.map(one => one.textContent))).toEqual([
        'iv',
        'vii°6',
        'V7',
        'i',
      ]);
      await page.reload();
      await page.waitForSelector('html[data-ready]');
      expect(await textOf(page, '.summary p')).toContain('1 right, 1 of 1 settled');
      expect(await reports()).toEqual([]);
      await page.close();
    },
  );

  test('a refused storage is no error', async () => {
    const { page, reports } = await open(refusing, addresses.http);
    const refused = await page.evaluate(() => {
      try {
        localStorage.getItem('x');
        return false;
      } catch {
        return true;
      }
    });
    expect(refused).toBe(true);
    await press(page, 'Next step');
    await press(page, 'C sharp');
    await page.keyboard.press('c');
    expect(await textOf(page, '.summary p')).toContain('1 right, 1 of 1 settled');
    expect(await reports()).toEqual([]);
    await page.close();
  });

  test.each([360, 820, 1920])('fits a window %i wide without scrolling sideways', async width => {
    const { page } = await open(browser, addresses.file);
    await page.setViewport({ width, height: 760 });
    await page.evaluate(() => new Promise(requestAnimationFrame));
    const overflow = await page.evaluate(() =>
      [document.documentElement, ...document.querySelectorAll('.music, .words, .controls')]
        .filter(element => element.scrollWidth > element.clientWidth)
        .map(element => element.className || element.tagName),
    );
    expect(overflow).toEqual([]);
    await page.close();
  });

  test('the mark of a claim stands behind its last word, however the lines are broken', async () => {
    const { page } = await open(browser, addresses.file);
    const astray = await page.evaluate(() => {
      const found: string[] = [];
      const words = document.querySelector<HTMLElement>('.words');
      for (let width = 150; width < 420; width += 10) {
        if (words !== null) words.style.width = `${width}px`;
        for (const mark of document.querySelectorAll('.step.current .claim-mark')) {
          const [tail, ...more] = mark.parentElement?.getClientRects() ?? [];
          const { right, bottom } = mark.getBoundingClientRect();
          const beside =
            tail !== undefined && Math.abs(right - tail.right) < 8 && Math.abs(bottom - tail.bottom) < 8;
          if (more.length > 0 || !beside) found.push(`${width}: ${mark.parentElement?.textContent ?? ''}`);
        }
      }
      return found;
    });
    expect(await page.$$eval('.step.current .claim-mark', marks => marks.length)).toBeGreaterThan(0);
    expect(astray).toEqual([]);
    await page.close();
  });
});
