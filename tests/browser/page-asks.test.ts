import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { add, fraction } from '../../src/score/index.js';
import { launchBrowser } from './launch.js';
import { bundlePlayer, openPage, writePage } from './open-page.js';
import { practiceLesson } from './practice-lesson.js';

let browser: Browser;
let address: string;

beforeAll(async () => {
  browser = await launchBrowser();
  address = writePage(
    await practiceLesson(await bundlePlayer(), { written: 'Which chord leads home in bar 14?' }),
  );
});
afterAll(() => browser.close());

const answer = async (page: Page, within: string, entry: string): Promise<string> => {
  await page.locator(`${within} input[type=text]`).fill(entry);
  await page.keyboard.press('Enter');
  return (await page.locator(`${within} .feedback`).textContent()) ?? '';
};

async function savedText(page: Page, press: () => Promise<void>): Promise<{ name: string; text: string }> {
  const [download] = await Promise.all([page.waitForEvent('download'), press()]);
  return { name: download.suggestedFilename(), text: readFileSync(await download.path(), 'utf8') };
}

describe('a question answered in writing', () => {
  test('is judged by the notes: refused with the reason, accepted in other spellings of the same', async () => {
    const { page, reports } = await openPage(browser, address);
    await page.getByRole('button', { name: /The other bank/ }).click();
    expect(await page.locator('.label').count()).toBe(0);
    const question = '.step.current .question';
    expect(await answer(page, question, 'what?')).toContain('“what?” cannot be read.');
    const wrong = await answer(page, question, 'iv');
    expect(wrong).toContain('Not quite.');
    expect(wrong).toContain('do not belong to Gm');
    expect(wrong).not.toContain('What the notes say');
    expect(await page.locator('.label').count()).toBe(0);
    expect(await answer(page, question, 'A7')).toContain('Yes.');
    expect(await page.locator('.label').count()).toBeGreaterThan(0);
    expect(await page.locator('.summary li').allTextContents()).toEqual([
      'Which note of bar 6 pulls back to D? not answered yet',
      'Which chord leads home in bar 14? A7: right, after 2 tries',
    ]);
    // What the student tries afterwards does not change the record.
    expect(await answer(page, question, 'ii')).toContain('Not quite.');
    expect(await page.locator('.summary li').nth(1).textContent()).toContain('A7: right');
    expect(reports).toEqual([]);
    await page.context().close();
  });

  test('the summary is kept, saved as a text, and forgotten when asked', async () => {
    const { page, reports } = await openPage(browser, address);
    await page.getByRole('button', { name: 'Next step' }).click();
    await page.getByRole('button', { name: 'B flat' }).click();
    await page.getByRole('button', { name: 'C sharp' }).click();
    await page.getByRole('button', { name: /The other bank/ }).click();
    await page.locator('.step.current').getByRole('button', { name: 'Show the answer' }).click();
    await page.reload();
    await page.waitForSelector('html[data-ready]');
    expect(await page.locator('.summary p').first().textContent()).toBe(
      '1 right, 2 of 2 settled; 0 of 3 steps heard.',
    );
    const { name, text } = await savedText(page, () =>
      page.getByRole('button', { name: 'Save as text' }).click(),
    );
    expect(name).toBe('how-the-ferry-leaves-the-bank-answers.txt');
    expect(text).toBe(`How the ferry leaves the bank

1 of 2 questions answered right, 0 of 3 steps heard

1. Which note of bar 6 pulls back to D?
   C sharp: right, after 2 tries
2. Which chord leads home in bar 14?
   answer shown: V7
`);
    await page.getByRole('button', { name: 'Begin again' }).click();
    expect(await page.locator('.summary p').first().textContent()).toBe(
      '0 right, 0 of 2 settled; 0 of 3 steps heard.',
    );
    expect(await page.locator('[aria-current=step] .step-title').textContent()).toBe(
      'Step 1: Four bars at the bank',
    );
    expect(reports).toEqual([]);
    await page.context().close();
  });
});

describe('practice', () => {
  test('hides all labels and the lesson’s words, asks bar by bar, judges, and ends with a summary', async () => {
    const { page, reports } = await openPage(browser, address);
    await page.getByRole('button', { name: 'Practise' }).click();
    expect(await page.locator('.label').count()).toBe(0);
    expect(await page.locator('.steps').isVisible()).toBe(false);
    // The lone note of the pickup settles no harmony.
    expect(await page.locator('.practice h2').textContent()).toBe('Bar 1');
    expect(await page.locator('.chosen path').count()).toBe(2);
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('INPUT');
    expect(await answer(page, '.practice', 'V')).toContain('Not quite.');
    expect(await answer(page, '.practice', 'Dm')).toContain('Yes.');
    expect(await page.locator('.practice .feedback').textContent()).toContain(
      'It is read as i in D minor (Dm).',
    );
    // The letters of an answer are no shortcuts.
    await page.locator('.practice input[type=text]').fill('');
    await page.locator('.practice input[type=text]').press('n');
    expect(await page.locator('.practice input[type=text]').inputValue()).toBe('n');
    await page.getByRole('button', { name: 'Listen' }).click();
    await page.waitForSelector('.sounding');
    for (let bar = 0; bar < 4; bar++) await page.getByRole('button', { name: 'Next', exact: true }).click();
    expect(await page.locator('.practice h2').textContent()).toBe('How it went');
    expect(await page.locator('.practice .about').textContent()).toBe('1 of 4 found.');
    const { text } = await savedText(page, () =>
      page.locator('.practice').getByRole('button', { name: 'Save as text' }).click(),
    );
    expect(text.split('\n').slice(0, 5)).toEqual([
      'How the ferry leaves the bank',
      '1 of 4 harmonies found',
      '',
      'Bar 1: Dm; right after 2 tries',
      'Bar 2: passed over; read as i in D minor (Dm)',
    ]);
    await page.getByRole('button', { name: 'Back to the lesson' }).click();
    expect(await page.locator('.label').count()).toBeGreaterThan(0);
    expect(await page.locator('.steps').isVisible()).toBe(true);
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Look closer');
    expect(reports).toEqual([]);
    await page.context().close();
  });

  test('an answer that was shown does not count as found, and the place of the lesson is not marked meanwhile', async () => {
    const { page } = await openPage(browser, address);
    await page.locator('.transport-play').click();
    await page.waitForSelector('.sounding');
    await page.locator('.transport-play').click();
    expect(await page.locator('.sounding').count()).toBeGreaterThan(0);
    await page.getByRole('button', { name: 'Practise' }).click();
    expect(await page.locator('.sounding, .bar-now rect').count()).toBe(0);
    await page.locator('.practice').getByRole('button', { name: 'Show the answer' }).click();
    expect(await answer(page, '.practice', 'i')).toContain('Yes.');
    for (let bar = 0; bar < 4; bar++) await page.getByRole('button', { name: 'Next', exact: true }).click();
    expect(await page.locator('.practice .about').textContent()).toBe('0 of 4 found.');
    expect(await page.locator('.practice li').first().textContent()).toBe(
      'Bar 1: answer shown; read as i in D minor (Dm)',
    );
    await page.context().close();
  });

  test('brackets what is asked: two beats, the last of the bar, a whole bar', async () => {
    const lesson = await practiceLesson(await bundlePlayer());
    const [own, ...others] = lesson.scores;
    const { segments } = own.analysis;
    const [bar1, bar3] = [segments[1], segments[3]];
    if (bar1 === undefined || bar3 === undefined)
      throw new Error('the practice lesson has lost its harmonies');
    const beat = add(bar1.start, fraction(2, 4));
    const split = [
      { ...bar1, end: beat },
      { ...bar3, start: beat, end: bar1.end },
    ];
    const analysis = { ...own.analysis, segments: [...segments.slice(0, 1), ...split, ...segments.slice(2)] };
    const address = writePage({ ...lesson, scores: [{ ...own, analysis }, ...others] });
    const { page } = await openPage(browser, address);
    await page.getByRole('button', { name: 'Practise' }).click();
    const asked = async (): Promise<{
      readonly words: string | null;
      readonly left: number;
      readonly right: number;
    }> => {
      const words = await page.locator('.practice h2').textContent();
      const box = await page.locator('.chosen path').first().boundingBox();
      return { words, left: box?.x ?? NaN, right: (box?.x ?? NaN) + (box?.width ?? NaN) };
    };
    const next = (): Promise<void> => page.getByRole('button', { name: 'Next', exact: true }).click();
    const first = await asked();
    await next();
    const rest = await asked();
    // What is asked is what is heard.
    await page.getByRole('button', { name: 'Listen' }).click();
    await page.waitForSelector('.sounding');
    const heard = new Set<number>();
    while ((await page.locator('.sounding').count()) > 0)
      for (const left of await page
        .locator('.sounding')
        .evaluateAll(heads => heads.map(head => head.getBoundingClientRect().left)))
        heard.add(left);
    expect(Math.min(...heard)).toBeGreaterThan(rest.left - 8);
    await next();
    const whole = await asked();
    expect([first, rest, whole].map(({ words }) => words)).toEqual([
      'Bar 1, from beat 1',
      'Bar 1, from beat 3',
      'Bar 2',
    ]);
    expect(first.left).toBeLessThan(first.right);
    expect(Math.abs(rest.left - first.right)).toBeLessThan(8);
    expect(rest.right - rest.left).toBeLessThan(first.right - first.left);
    expect(Math.abs(whole.left - rest.right)).toBeLessThan(12);
    await page.context().close();
  });

  test.each([
    [360, 600],
    [1280, 560],
  ])('the verdict on an answer is seen at once in a window of %i by %i', async (width, height) => {
    const { page } = await openPage(browser, address, { width, height });
    await page.getByRole('button', { name: 'Practise' }).click();
    await page.getByRole('textbox').first().fill('V7');
    await page.getByRole('button', { name: 'Check' }).click();
    const isSeen = (): Promise<boolean> =>
      page
        .locator('.practice .feedback strong')
        .first()
        .evaluate(verdict => {
          const { top, bottom } = verdict.getBoundingClientRect();
          const words = verdict.closest('.words')?.getBoundingClientRect();
          return words !== undefined && top >= words.top && bottom <= words.bottom;
        });
    await expect.poll(isSeen).toBe(true);
    await page.context().close();
  });
});
