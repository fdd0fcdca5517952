import { mkdtempSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import { readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildSite } from '../../src/output/walkthrough-site.js';
import { unpacked } from '../output/unpacked.js';
import { launchBrowser } from './launch.js';
import { bundlePlayer } from './open-page.js';
import { practiceLesson } from './practice-lesson.js';

let browser: Browser;
let folder: string;
let server: Server;
let origin: string;
let scormPage: string;

const types: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
};

beforeAll(async () => {
  browser = await launchBrowser();
  const player = await bundlePlayer();
  const lesson = await practiceLesson(player);
  const second = { ...(await practiceLesson(player, { title: 'Back <again> & over' })), name: 'way back' };
  folder = mkdtempSync(join(tmpdir(), 'barwise-site-'));
  for (const { name, bytes } of buildSite({
    title: 'Crossing the river',
    lessons: [{ ...lesson, name: 'way-out' }, second],
    platforms: ['SCORM 1.2', 'cmi5'],
  }))
    writeFileSync(join(folder, name), bytes);
  scormPage =
    unpacked(readFileSync(join(folder, 'course-scorm-1.2.zip')))
      .get('way-out.html')
      ?.toString('utf8') ?? '';
  server = createServer((request, response) => {
    const name = decodeURIComponent(new URL(request.url ?? '/', 'http://x').pathname.slice(1));
    if (name === 'frame.html') {
      response.setHeader('content-type', 'text/html');
      response.end(`<script>
        window.calls = [];
        const note = name => (...values) => { window.calls.push([name, ...values].join(' ')); return 'true'; };
        window.API = { LMSInitialize: note('initialize'), LMSFinish: note('finish'), LMSSetValue: note('set'),
          LMSCommit: note('commit'), LMSGetValue: () => 'not attempted' };
      </script><iframe src="scorm.html" style="width:1200px;height:700px"></iframe>`);
      return;
    }
    response.setHeader('content-type', types[extname(name)] ?? 'application/octet-stream');
    response.end(name === 'scorm.html' ? scormPage : readFileSync(join(folder, name)));
  });
  await new Promise<void>(resolve => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  origin = typeof address === 'object' && address !== null ? `http://127.0.0.1:${address.port}` : '';
});
afterAll(async () => {
  await browser.close();
  server.close();
});

describe.each(['file', 'http'])('a course opened by %s', scheme => {
  const at = (name: string): string =>
    scheme === 'file' ? pathToFileURL(join(folder, name)).href : `${origin}/${encodeURIComponent(name)}`;

  test('lists its lessons and leads into a step of one, which plays with the shared program', async () => {
    const page = await browser.newPage();
    const reports: string[] = [];
    page.on('console', message => reports.push(message.text()));
    page.on('pageerror', error => reports.push(error.message));
    await page.goto(at('index.html'));
    expect(await page.locator('h1').textContent()).toBe('Crossing the river');
    expect(await page.locator('h2').allTextContents()).toEqual([
      'How the ferry leaves the bank',
      'Back <again> & over',
    ]);
    await page.getByRole('link', { name: 'Out on the water' }).first().click();
    await page.waitForSelector('html[data-ready]');
    expect(await page.locator('[aria-current=step] .step-title').textContent()).toBe(
      'Step 2: Out on the water',
    );
    await page.locator('.transport-play').click();
    await page.waitForSelector('.sounding');
    await page.evaluate(() => {
      location.hash = '#step-3';
    });
    await page.waitForFunction(
      () =>
        document.querySelector('[aria-current=step] .step-title')?.textContent === 'Step 3: The other bank',
    );
    await page.goto(at('way back.html'));
    await page.waitForSelector('html[data-ready]');
    expect(await page.locator('h1').textContent()).toBe('Back <again> & over');
    expect(reports).toEqual([]);
    await page.close();
  });
});

describe('inside a learning platform', () => {
  test('a SCORM page reports its beginning, an answer and its end', async () => {
    const page = await browser.newPage();
    await page.goto(`${origin}/frame.html`);
    const lesson = page.frameLocator('iframe');
    await lesson.locator('.transport-play').waitFor();
    await lesson.getByRole('button', { name: 'Next step' }).click();
    await lesson.getByRole('button', { name: 'C sharp' }).click();
    const calls = () => page.evaluate(() => (globalThis as unknown as { calls: string[] }).calls);
    expect(await calls()).toContain('initialize ');
    expect((await calls()).filter(call => call.includes('interactions'))).toEqual([
      'set cmi.interactions.0.id question-2-2',
      'set cmi.interactions.0.type fill-in',
      'set cmi.interactions.0.student_response C sharp',
      'set cmi.interactions.0.result correct',
    ]);
    await page.evaluate(() => document.querySelector('iframe')?.remove());
    await page.waitForFunction(
      () => (globalThis as unknown as { calls: string[] }).calls.at(-1) === 'finish ',
    );
    await page.close();
  });
});
