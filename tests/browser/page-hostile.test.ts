import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { PlayerBundle } from '../../src/output/index.js';
import { launchBrowser } from './launch.js';
import { bundlePlayer, openPage, writePage } from './open-page.js';
import { practiceLesson, practiceWaltz, type Texts } from './practice-lesson.js';

let browser: Browser;
let player: PlayerBundle;

beforeAll(async () => {
  browser = await launchBrowser();
  player = await bundlePlayer();
});
afterAll(() => browser.close());

/** Would call `attack` if any of it were taken for markup or program. */
const injections = [
  '<script>attack(1)</script>',
  '</script><script>attack(2)</script>',
  '<img src=x onerror=attack(3)>',
  '"><svg onload=attack(4)>',
  "' onfocus=attack(5) autofocus '",
  '<!--<script>attack(6)//-->',
  '</title><script>attack(7)</script>',
  '<a href="javascript:attack(8)">here</a>',
  '</style><style>*{display:none}</style>',
  '<iframe srcdoc="<script>parent.attack(9)</script>"></iframe>',
  '\u2028</script \n><script>attack(10)</script>',
  '&lt;script&gt;attack(11)&lt;/script&gt;',
  '<base href="https://example.com/"><meta http-equiv="refresh" content="0;url=https://example.com/">',
  '${attack(12)} {{attack(13)}} %3Cscript%3Eattack(14)%3C/script%3E',
];

const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;');

/** The same text in every place of the lesson that an author fills. */
const hostile = (text: string): Partial<Texts> => ({
  title: text,
  step: text,
  // As the lesson reader would write it, and once as if it had failed to.
  say: `<p>${escaped(text)}</p><p>raw ${text}</p>`,
  question: text,
  choice: text,
  reason: text,
  abc: practiceWaltz
    .replace("The Ferryman's Waltz", text.replaceAll('\n', ' '))
    .replace('written for the tests', text.replaceAll('\n', ' '))
    .replace(
      '[V:R] A |',
      `[V:R] "^${text.replaceAll('"', "'").replaceAll('\n', ' ').replaceAll('%', '')}" A |`,
    )
    .replace('d2 A |\n[V:L] z', `d2 A |\nw: ${text.replaceAll('\n', ' ').replaceAll('%', '')}\n[V:L] z`),
  captions: `WEBVTT\n\n00:00.000 --> 01:00.000\n${escaped(text.replaceAll('\n', ' '))}`,
});

describe('hostile text stays text', () => {
  test.each(injections)('%s', async text => {
    const address = writePage(await practiceLesson(player, hostile(text)));
    const context = await browser.newContext();
    const page = await context.newPage();
    const attacks: unknown[] = [];
    await page.exposeFunction('attack', (value: unknown) => attacks.push(value));
    const requests: string[] = [];
    page.on('request', request => {
      if (request.url() !== address && !request.url().startsWith('data:')) requests.push(request.url());
    });
    await page.goto(address);
    await page.waitForSelector('html[data-ready]');
    expect(await page.title()).toBe(text.replace(/[ \n]+/g, ' '));
    expect(await page.locator('h1').textContent()).toBe(text);
    expect(await page.locator('.step.current .step-title').textContent()).toBe(`Step 1: ${text}`);
    expect((await page.locator('.step.current .step-body p').first().textContent())?.trim()).toBe(
      text.trim(),
    );
    await page.getByRole('button', { name: 'Next step' }).click();
    await page.locator('.question .choice').nth(1).click();
    expect(await page.locator('.choice').nth(1).textContent()).toBe(text);
    await page.getByText('Options').click();
    await page.getByLabel('Captions').check();
    await page.getByRole('slider', { name: 'Place in the lesson' }).fill('3');
    expect((await page.locator('.caption').textContent())?.trim()).toBe(text.replaceAll('\n', ' ').trim());
    // The same words in the summary, the transcript, the strip for looking closer, in practice and on paper.
    expect(await page.locator('.summary li').first().textContent()).toBe(
      `${text} ${text}: right, at the first try`,
    );
    await page.getByText('Options').click();
    await page.getByRole('button', { name: 'Transcript' }).click();
    expect(await page.locator('.transcript h2').first().textContent()).toBe(`1. ${text}`);
    await page.getByRole('button', { name: 'Look closer' }).click();
    await page.getByRole('button', { name: 'Practise' }).click();
    await page.locator('.practice input[type=text]').fill(text);
    await page.keyboard.press('Enter');
    expect(await page.locator('.practice .feedback').textContent()).toContain('cannot be read');
    await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
    expect(await page.locator('.handout h1').textContent()).toBe(text);
    expect(await page.locator('.handout :is(script, style, iframe, img, base, meta, a)').count()).toBe(0);
    // Nothing but what the page itself makes.
    expect(await page.locator('#lesson :is(script, style, iframe, img, base, meta, a)').count()).toBe(0);
    expect(await page.locator('script:not([type])').count()).toBe(1);
    expect(attacks).toEqual([]);
    expect(requests).toEqual([]);
    await context.close();
  });
});

describe('the content policy', () => {
  test('refuses what is not the page itself', async () => {
    const { page } = await openPage(browser, writePage(await practiceLesson(player)));
    const outcome = await page.evaluate(async () => {
      const marks: string[] = [];
      Object.assign(globalThis, { attack: (name: string) => marks.push(name) });
      const script = document.createElement('script');
      script.textContent = 'attack("script")';
      document.body.append(script);
      const image = document.createElement('img');
      image.setAttribute('onerror', 'attack("handler")');
      image.src = 'data:image/png;base64,x';
      document.body.append(image);
      const styled = document.createElement('p');
      styled.setAttribute('style', 'position: fixed');
      document.body.append(styled);
      const fetched = await fetch('https://example.com/').then(
        () => 'fetched',
        () => 'refused',
      );
      // In a task of its own: the browser's tools may evaluate, the page may not.
      const evaluated = await new Promise(resolve =>
        setTimeout(() => {
          try {
            resolve(new Function('return "evaluated"')());
          } catch {
            resolve('refused');
          }
        }),
      );
      await new Promise(resolve => setTimeout(resolve, 200));
      return { marks, fetched, evaluated, position: getComputedStyle(styled).position };
    });
    expect(outcome).toEqual({ marks: [], fetched: 'refused', evaluated: 'refused', position: 'static' });
    await page.context().close();
  });
});
