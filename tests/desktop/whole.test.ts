/** The whole shell: its main process, its preload and the workshop's own window, with the test as the user of its menus and dialogs. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { readWav } from '../../src/sound/index.js';
import { greatest, heardFile, lengthOf, shareAt } from '../studio/takes/heard-tone.js';
import { shells } from './shell.js';

const start = shells('own');

const isOpen = async (page: Page): Promise<void> => {
  await page.waitForSelector('.claim-row.is-holds');
  await page.waitForSelector('.score-pane svg.system');
};
const state = (page: Page): Promise<string | null> => page.locator('.bar .quiet').first().textContent();
const isSaved = (page: Page): Promise<unknown> =>
  page.waitForFunction(() => document.querySelector('.bar .quiet')?.textContent === 'saved');
/** Writes behind the title of the lesson. */
async function write(page: Page, words: string): Promise<void> {
  await page.locator('.cm-line', { hasText: /^title: / }).click();
  await page.keyboard.press('End');
  await page.keyboard.type(words);
}
const title = (lesson: string): string | undefined =>
  /^title: (.*)$/mu.exec(readFileSync(lesson, 'utf8'))?.[1];

describe('the whole shell', () => {
  it('opens the lesson that it was started with, and saves from the menu', async () => {
    const { page, lesson, order } = await start();
    await isOpen(page);
    await write(page, ', by night');
    expect(await state(page)).toBe('not saved');
    order({ kind: 'menu', labels: ['Lesson', 'Save'] });
    await isSaved(page);
    expect(title(lesson)).toBe('The way home by the mill road, by night');
  });

  it('saves under another name and exports, both into places from dialogs of the system', async () => {
    const { page, lesson, folder, next, order } = await start();
    await isOpen(page);
    await write(page, ', again');
    order({ kind: 'menu', labels: ['Lesson', 'Save as…'] });
    const other = join(folder, 'other.yaml');
    order({ kind: 'dialog-answer', number: (await next('dialog')).number, paths: [other] });
    await page.getByRole('heading', { level: 1, name: 'other.yaml' }).waitFor();
    await isSaved(page);
    expect([title(other), title(lesson)]).toEqual([
      'The way home by the mill road, again',
      'The way home by the mill road',
    ]);
    order({ kind: 'menu', labels: ['Lesson', 'Build the walkthrough…'] });
    const asked = await next('dialog');
    expect(asked.options['properties']).toEqual(['openDirectory', 'createDirectory']);
    order({ kind: 'dialog-answer', number: asked.number, paths: [folder] });
    await page.getByRole('button', { name: 'Stop the export' }).click();
    await page.locator('.notice', { hasText: 'the export was cancelled' }).waitFor();
  });

  it('asks before it closes over unsaved work, and closes once that is saved', async () => {
    const { page, lesson, order, ended } = await start();
    await isOpen(page);
    await write(page, ', at last');
    order({ kind: 'close' });
    const asks = page.getByRole('dialog', { name: 'This lesson has unsaved changes' });
    await asks.getByRole('button', { name: 'Stay here' }).click();
    expect(page.isClosed()).toBe(false);
    order({ kind: 'close' });
    await asks.getByRole('button', { name: 'Save them' }).click();
    expect(await ended).toBe(0);
    expect(title(lesson)).toBe('The way home by the mill road, at last');
  });

  it('records by its microphone: the take stands beside the lesson and is heard in the walkthrough', async () => {
    const heard = heardFile([{ seconds: 1, amplitude: 0.25 }]);
    const { page, folder, order, next } = await start({ heard });
    await isOpen(page);
    order({ kind: 'menu', labels: ['Lesson', 'Narration'] });
    await page.waitForSelector('.texts button[aria-current]');
    await page.getByRole('button', { name: 'Record', exact: true }).click();
    expect(await next('permission')).toMatchObject({ types: ['audio'], isGranted: true });
    const stop = page.getByRole('button', { name: 'Stop', exact: true });
    await stop.waitFor();
    await stop.waitFor();
    await page.waitForTimeout(2000);
    await stop.click();
    await page.locator('.stage .status', { hasText: 'Recording 1 is kept' }).waitFor();
    const take = readWav(readFileSync(join(folder, 'takes', '1.1.wav')));
    expect(lengthOf(take)).toBeGreaterThan(1.5);
    expect(Math.abs(20 * Math.log10(greatest(take)) + 12)).toBeLessThan(1);
    expect(shareAt(440, take)).toBeGreaterThan(0.9);
    await page
      .locator('.narration-pane header .quiet', { hasText: /^the walkthrough lasts .* 1 of \d+ texts/u })
      .waitFor();
  });

  it('shows the help of its menu', async () => {
    const { page, order } = await start();
    await isOpen(page);
    order({ kind: 'menu', labels: ['help', 'Keys and pointer'] });
    await page.getByRole('dialog', { name: 'Keys and pointer' }).waitFor();
  });
});
