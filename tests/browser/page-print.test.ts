import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launchBrowser } from './launch.js';
import { bundlePlayer, openPage, writePage } from './open-page.js';
import { practiceLesson } from './practice-lesson.js';

let browser: Browser;
let address: string;

beforeAll(async () => {
  browser = await launchBrowser();
  address = writePage(await practiceLesson(await bundlePlayer(), { written: 'Which chord leads home?' }));
});
afterAll(() => browser.close());

/** Pages of a PDF (ISO 32000-1, 7.7.3.3: a page object has /Type /Page). */
const pagesOf = (pdf: Buffer): number =>
  [...pdf.toString('latin1').matchAll(/\/Type\s*\/Page\b(?!s)/g)].length;

/** Presses a button of the options and stops where the browser would ask for a printer; the paper then stands as it would be printed. */
async function paper(page: Page, button?: string): Promise<void> {
  await page.evaluate(() => {
    window.print = () => undefined;
  });
  if (button !== undefined) {
    await page.getByText('Options').click();
    await page.getByRole('button', { name: button }).click();
  }
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
  await page.emulateMedia({ media: 'print' });
}

describe('on paper', () => {
  test('the handout has blanks, questions with room, no label and no word of the answer; short steps share a page', async () => {
    const { page, reports } = await openPage(browser, address);
    await paper(page);
    expect(await page.locator('.handout h2').allTextContents()).toEqual([
      '1. Four bars at the bank the pickup and bars 1–4',
      '2. Out on the water bars 5–8',
      '3. The other bank bars 9–16',
    ]);
    // One blank for every harmony of the step.
    expect(
      await page
        .locator('.handout-step')
        .evaluateAll(steps => steps.map(step => step.querySelectorAll('.cover').length)),
    ).toEqual([5, 4, 7]);
    expect(await page.locator('.handout .label').count()).toBe(0);
    expect(await page.locator('.handout .tone-mark').count()).toBe(0);
    expect(await page.locator('.handout').innerText()).not.toContain('leading tone');
    expect(await page.locator('.handout-question').allInnerTexts()).toEqual([
      expect.stringMatching(/^Which note of bar 6 pulls back to D\?\s+B flat\s+C sharp\s+G$/),
      expect.stringMatching(/^Which chord leads home\?\s*$/),
    ]);
    expect(await page.locator('.controls').isVisible()).toBe(false);
    // A browser may ask for the paper when it shows nothing else any more; the music is on it all the same.
    await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
    expect(await page.locator('.handout .system').count()).toBe(3);
    expect(pagesOf(await page.pdf({ format: 'A4' }))).toBe(2);
    expect(reports).toEqual([]);
    await page.context().close();
  });

  test('the key has labels, answers, and every claim under its number in the order of the lesson, with the reason', async () => {
    const { page, reports } = await openPage(browser, address);
    await paper(page, 'Key with labels and reasons');
    const numerals = page.locator('.handout-step').first().locator('.label-numerals');
    expect(await numerals.allTextContents()).toEqual(['i', 'i', 'i', 'V7', 'i']);
    expect(await page.locator('.handout .cover').count()).toBe(0);
    const claims = await page
      .locator('.handout-claims li')
      .evaluateAll(items => items.map(item => `${(item as HTMLLIElement).value} ${item.textContent}`));
    expect(claims.map(claim => claim.split(':')[0])).toEqual([
      '1 bars 1-4 are in D minor holds',
      '2 bar 3 is V7 holds',
      '3 bar 6 is viio6 arguable',
      '4 bar 6 has C♯ holds',
      '5 bar 14 is V7 holds',
    ]);
    expect(claims[2]).toContain('with A in mind it is V7 without its root');
    expect(await page.locator('.handout sup').allTextContents()).toEqual(['1', '2']);
    expect(await page.locator('.handout').innerText()).toContain(
      'Which note of bar 6 pulls back to D? C sharp [4]',
    );
    expect(pagesOf(await page.pdf({ format: 'A4' }))).toBe(2);
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
    expect(await page.locator('.handout').count()).toBe(0);
    expect(reports).toEqual([]);
    await page.context().close();
  });

  test('there is a blank for each label that a step shows, for a key where it begins, and for no other', async () => {
    const made = await practiceLesson(await bundlePlayer());
    const shows = [['keys'], ['non-chord tones'], ['numerals', 'keys']] as const;
    const steps = made.lesson.steps.map((step, index) => ({ ...step, show: shows[index] ?? [] }));
    const { page } = await openPage(browser, writePage({ ...made, lesson: { ...made.lesson, steps } }));
    await paper(page);
    expect(
      await page
        .locator('.handout-step')
        .evaluateAll(all => all.map(step => step.querySelectorAll('.cover').length)),
    ).toEqual([1, 0, 7]);
    expect(await page.locator('.handout .label, .handout .tone-mark').count()).toBe(0);
    await page.context().close();
  });

  test('a claim that fails is no statement of the lesson, on the page and on paper, and the page is a draft', async () => {
    const lesson = await practiceLesson(await bundlePlayer());
    const failing = new Set(['bar 3 is V7', 'bar 6 is viio6', 'bar 6 has C#']);
    const claims = lesson.claims.map(({ claim, verdict }) => ({
      claim,
      verdict: failing.has(claim.text) ? { ...verdict, verdict: 'fails' as const } : verdict,
    }));
    const { page, reports } = await openPage(browser, writePage({ ...lesson, claims }));
    const draft = page.locator('.draft');
    expect(await draft.locator('summary').innerText()).toBe(
      'Draft: 3 statements do not agree with the notes',
    );
    expect(await draft.locator('li a').allTextContents()).toEqual(['Step 1', 'Step 2', 'Step 2']);
    const marked = page.locator('.step .claim, .step .claim-mark, .step-claims li');
    expect(await marked.evaluateAll(all => all.map(each => each.className))).toEqual([
      'claim holds',
      'claim-mark holds',
    ]);
    await page.getByRole('button', { name: /Out on the water/ }).click();
    await page.getByRole('button', { name: 'C sharp' }).click();
    expect(await page.locator('.step.current .feedback').innerText()).toBe('Yes. C sharp');
    await paper(page, 'Key with labels and reasons');
    const handout = page.locator('.handout');
    expect(await handout.locator('.handout-claims li').allTextContents()).toEqual([
      expect.stringMatching(/^bars 1-4 are in D minor holds/),
    ]);
    expect(await handout.locator('header').innerText()).toContain('Draft: 3 statements');
    expect(await handout.innerText()).toContain('Which note of bar 6 pulls back to D? C sharp\n');
    expect(reports).toEqual([]);
    await page.context().close();
  });

  test.each([
    ['A, C#, E and G sound', 6],
    ['A, C#, E and G sound; set aside: D (passing tone)', 1],
  ])('what is set aside is told once in the key: %s', async (reason, times) => {
    const { page } = await openPage(
      browser,
      writePage(await practiceLesson(await bundlePlayer(), { reason })),
    );
    await paper(page, 'Key with labels and reasons');
    const told = (await page.locator('.handout-claims li').nth(1).textContent()) ?? '';
    expect(told).toMatch(/^bar 3 is V7 holds: A, C♯, E and G sound/);
    expect(told.match(/set aside/g)).toHaveLength(times);
    await page.context().close();
  });
});
