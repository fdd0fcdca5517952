import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launchBrowser } from './launch.js';
import { bundlePlayer, openPage, writePage } from './open-page.js';
import { practiceLesson } from './practice-lesson.js';

let browser: Browser;
let address: string;

beforeAll(async () => {
  browser = await launchBrowser();
  address = writePage(await practiceLesson(await bundlePlayer()));
});
afterAll(() => browser.close());

/** What the focused element is called, and whether its focus can be seen and is not covered. */
const focused = (page: Page) =>
  page.evaluate(() => {
    const element = document.activeElement;
    if (element === null || element === document.body) return undefined;
    const { left, top, width, height } = element.getBoundingClientRect();
    const front = document.elementFromPoint(left + width / 2, top + Math.min(height / 2, 20));
    const { outlineStyle, outlineWidth } = getComputedStyle(element);
    return {
      name: (element.getAttribute('aria-label') ?? element.textContent).trim(),
      outlined: outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2,
      inFront: front !== null && (element.contains(front) || front.contains(element)),
    };
  });

/** Presses Tab from the top of the page until the focus comes round. */
async function walk(page: Page): Promise<readonly NonNullable<Awaited<ReturnType<typeof focused>>>[]> {
  const stops = [];
  for (let press = 0; press < 60; press++) {
    await page.keyboard.press('Tab');
    const stop = await focused(page);
    if (stop === undefined) break;
    stops.push(stop);
  }
  return stops;
}

describe('by keyboard alone', () => {
  test.each([
    [1280, 800],
    [360, 760],
    [640, 400],
  ])('everything is reached in order, seen and uncovered in a window of %i by %i', async (width, height) => {
    const { page } = await openPage(browser, address, { width, height, reducedMotion: true });
    const scrolls = await page.locator('main').evaluate(main => main.scrollHeight > main.clientHeight);
    const stops = await walk(page);
    expect(stops.map(({ name }) => name.replace(/\d:\d\d, .*$/, ''))).toEqual([
      ...(scrolls ? ['Score'] : []),
      'Practise',
      'Look closer',
      'Steps',
      'Transcript',
      '1Step 1: Four bars at the bank',
      'Play the pickup and bars 1–4',
      'Why: bars 1-4 are in D minor (holds)',
      'Why: bar 3 is V7 (holds)',
      'Play this step alone',
      'The notes in words',
      '2Step 2: Out on the water',
      '3Step 3: The other bank',
      'Save as text',
      'Begin again',
      'Place in the lesson',
      'Previous step',
      'Play',
      'Next step',
      ...(width > 640 ? ['This step again'] : []),
      'Tempo 100 %',
      'Options',
    ]);
    expect(stops.filter(({ outlined, inFront }) => !outlined || !inFront)).toEqual([]);
    await page.context().close();
  });

  test('single keys play, move and switch, and do nothing once they are turned off', async () => {
    const { page } = await openPage(browser, address);
    const current = () => page.locator('[aria-current=step] .step-title').textContent();
    const play = page.locator('.transport-play');
    await page.keyboard.press('n');
    expect(await current()).toBe('Step 2: Out on the water');
    await page.keyboard.press('p');
    expect(await current()).toBe('Step 1: Four bars at the bank');
    await page.keyboard.press('l');
    expect(await page.locator('.label').count()).toBe(0);
    await page.keyboard.press('l');
    expect(await page.locator('.label').count()).toBeGreaterThan(0);
    await page.keyboard.press(' ');
    expect(await play.textContent()).toBe('Pause');
    await page.keyboard.press(' ');
    expect(await play.textContent()).toBe('Play');
    await page.getByText('Options').click();
    await page.getByLabel('Single keys do something').uncheck();
    await page.keyboard.press('Escape');
    expect(await page.locator('.options').getAttribute('open')).toBeNull();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Options');
    await page.keyboard.press('n');
    expect(await current()).toBe('Step 1: Four bars at the bank');
    await page.context().close();
  });

  test('the score is read by step, bar and note, heard, and left again', async () => {
    const { page } = await openPage(browser, address, { reducedMotion: true });
    const words = async () => (await page.locator('.closer-words').textContent()) ?? '';
    await page.keyboard.press('w');
    expect(await words()).toMatch(
      /^Step 1: Four bars at the bankPickup and bars 1 to 4: 5 bars, staff 1, staff 2\.Key: D minor\./,
    );
    await page.keyboard.press('ArrowRight');
    expect(await words()).toMatch(/^Pickup.*Beat 3\. staff 1: A 4\./);
    await page.keyboard.press('ArrowRight');
    expect(await words()).toBe(
      'A 4, quarter note, staff 1, pickup, beat 3: fifth of Dm; degree 5 of D minor, the dominant.',
    );
    // On: the buttons before and after.
    await page.keyboard.press('Tab');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    expect(await words()).toMatch(/^D 3, quarter note, staff 2, bar 1, beat 1: root of Dm/);
    const stops: string[] = [];
    for (let press = 0; press < 7; press++) {
      await page.keyboard.press('Tab');
      stops.push((await focused(page))?.name ?? '');
    }
    expect(stops).toEqual(['Close', 'From bar', 'To bar', 'Play', 'Repeat', 'Stack', 'As chords']);
    await page.keyboard.press('Shift+Tab');
    await page.keyboard.press('Shift+Tab');
    await page.keyboard.press('Enter');
    expect(await page.locator('.transport-play').textContent()).toBe('Pause');
    await page.keyboard.press('Enter');
    expect(await page.locator('.transport-play').textContent()).toBe('Play');
    await page.keyboard.press('Escape');
    expect(await page.locator('.closer').isVisible()).toBe(false);
    expect((await focused(page))?.name).toBe('Look closer');
    await page.context().close();
  });

  test('practice, transcript and tempo are worked without a pointer', async () => {
    const { page } = await openPage(browser, address, { reducedMotion: true });
    await page.getByRole('button', { name: 'Practise' }).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.type('Dm');
    await page.keyboard.press('Enter');
    expect(await page.locator('.practice .feedback').textContent()).not.toBe('');
    for (let press = 0; press < 4; press++) await page.keyboard.press('Tab');
    expect((await focused(page))?.name).toBe('Next');
    await page.keyboard.press('Enter');
    expect(await page.locator('.practice h2').textContent()).toBe('Bar 2');
    await page.getByRole('button', { name: 'Back to the lesson' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Transcript' }).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('Tab');
    await page.keyboard.type('tone');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    expect(await page.locator('.transport-play').textContent()).toBe('Pause');
    await page.locator('.pull-up summary').first().focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('Tab');
    await page.keyboard.press('ArrowLeft');
    expect(await page.locator('.pull-up summary').first().textContent()).toBe('Tempo 95 %');
    await page.keyboard.press('Escape');
    expect((await focused(page))?.name).toBe('Tempo 95 %');
    await page.context().close();
  });

  test('the space bar presses a focused button once, and letters with a modifier are left alone', async () => {
    const { page } = await openPage(browser, address);
    await page.getByRole('button', { name: 'Next step' }).focus();
    await page.keyboard.press(' ');
    expect(await page.locator('[aria-current=step] .step-title').textContent()).toBe(
      'Step 2: Out on the water',
    );
    expect(await page.locator('.transport-play').textContent()).toBe('Play');
    await page.keyboard.press('Control+n');
    expect(await page.locator('[aria-current=step] .step-title').textContent()).toBe(
      'Step 2: Out on the water',
    );
    await page.context().close();
  });

  test('the arrow keys move the place in the lesson, and it is told in words', async () => {
    const { page } = await openPage(browser, address);
    const slider = page.getByRole('slider', { name: 'Place in the lesson' });
    await slider.focus();
    for (let press = 0; press < 3; press++) await page.keyboard.press('ArrowRight');
    expect(await slider.inputValue()).toBe('3');
    expect(await slider.getAttribute('aria-valuetext')).toMatch(
      /^3 seconds of 1 minute \d+ seconds, step 1: Four bars at the bank$/,
    );
    await page.context().close();
  });

  test('the notes of a step can be read in words', async () => {
    const { page } = await openPage(browser, address);
    await page.getByText('The notes in words').first().focus();
    await page.keyboard.press('Enter');
    await page.waitForSelector('.in-words h3');
    expect(await page.locator('.in-words h3').allTextContents()).toEqual([
      'Pickup',
      'Bar 1',
      'Bar 2',
      'Bar 3',
      'Bar 4',
    ]);
    const lines = await page.locator('.in-words[open] li').allTextContents();
    expect(lines[0]).toBe('Beat 3. staff 1: A 4.');
    expect(lines[1]).toBe('Beat 1. staff 1: D 5; staff 2: D 3.');
    expect(lines[2]).toBe('Beat 2. staff 2: F 3, A 3.');
    await page.context().close();
  });

  test('what was chosen is kept, and a refused storage does no harm', async () => {
    const { page } = await openPage(browser, address);
    await page.keyboard.press('c');
    await page.reload();
    await page.waitForSelector('html[data-ready]');
    await page.getByText('Options').click();
    expect(await page.getByLabel('Captions').isChecked()).toBe(true);
    await page.context().close();

    const context = await browser.newContext();
    const refused = await context.newPage();
    const errors: string[] = [];
    refused.on('pageerror', error => errors.push(error.message));
    await refused.addInitScript(() => {
      Object.defineProperty(globalThis, 'localStorage', {
        get: () => {
          throw new DOMException('refused', 'SecurityError');
        },
      });
    });
    await refused.goto(address);
    await refused.waitForSelector('html[data-ready]');
    await refused.keyboard.press('c');
    expect(await refused.locator('#lesson').getAttribute('class')).toBe('with-captions');
    expect(errors).toEqual([]);
    await context.close();
  });
});
