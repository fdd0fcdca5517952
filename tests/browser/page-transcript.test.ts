import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launchBrowser } from './launch.js';
import { bundlePlayer, openPage, timelineOf, writePage } from './open-page.js';
import { practiceLesson } from './practice-lesson.js';

let browser: Browser;
let address: string;

beforeAll(async () => {
  browser = await launchBrowser();
  address = writePage(await practiceLesson(await bundlePlayer()));
});
afterAll(() => browser.close());

describe('the transcript', () => {
  test('holds every word that is spoken and every passage that is played, in order', async () => {
    const { page } = await openPage(browser, address);
    await page.getByRole('button', { name: 'Transcript' }).click();
    const { events } = await timelineOf(page);
    const wanted = events.flatMap(event =>
      event.kind === 'speech' ? [event.text.replace(/\s+/g, ' ')] : event.kind === 'passage' ? ['['] : [],
    );
    const lines = (await page.locator('.transcript li p').allTextContents()).map(line =>
      line.replace(/\s+/g, ' '),
    );
    expect(lines.map((line, index) => (wanted[index] === '[' ? line.charAt(0) : line))).toEqual(wanted);
    await page.context().close();
  });

  test('is searched, whatever the case, and says how often the words occur', async () => {
    const { page } = await openPage(browser, address);
    await page.getByRole('button', { name: 'Transcript' }).click();
    await page.getByLabel('Search the words').fill('LEADING tone');
    // The words behind an open question tell its answer.
    expect(await page.locator('.transcript .about').textContent()).toBe('1 place');
    await page.getByRole('button', { name: 'Steps' }).click();
    await page.getByRole('button', { name: 'Next step' }).click();
    await page.getByRole('button', { name: 'C sharp' }).click();
    await page.getByRole('button', { name: 'Transcript' }).click();
    expect(await page.locator('.transcript li:visible p').allTextContents()).toEqual([
      expect.stringContaining('with C sharp as the leading tone.'),
      'The leading tone, of course.',
    ]);
    expect(await page.locator('.word.found').allTextContents()).toEqual([
      'leading',
      'tone.',
      'leading',
      'tone,',
    ]);
    expect(await page.locator('.transcript .about').textContent()).toBe('2 places');
    // A passage is written with a dash that no keyboard has.
    await page.getByLabel('Search the words').fill('bars 1-4');
    expect(await page.locator('.transcript .about').textContent()).toBe('1 place');
    await page.getByLabel('Search the words').fill('');
    expect(await page.locator('.transcript li[hidden]').count()).toBe(0);
    await page.context().close();
  });

  test('jumps to a line or a word, and follows it, as do the captions', async () => {
    const { page, reports } = await openPage(browser, address);
    await page.keyboard.press('c');
    await page.getByRole('button', { name: 'Transcript' }).click();
    await page.locator('.transcript .word', { hasText: 'dominant' }).click();
    await page.waitForSelector('.transcript .word.spoken');
    const followed = await page.evaluate(async () => {
      const seen: string[] = [];
      while (seen.length < 3) {
        const [line, caption] = ['.transcript .spoken', '.caption .spoken'].map(
          place => document.querySelector(place)?.textContent ?? '',
        );
        const both = `${line} / ${caption}`;
        if (line !== '' && seen.at(-1) !== both) seen.push(both);
        await new Promise(requestAnimationFrame);
      }
      return seen;
    });
    expect(followed).toEqual(['dominant / dominant', 'seventh, / seventh,', 'with / with']);
    await page.locator('.jump').nth(3).click();
    await page.waitForFunction(() => document.querySelector('.transcript .spoken')?.textContent === 'Bar');
    expect(reports).toEqual([]);
    await page.context().close();
  });
});
