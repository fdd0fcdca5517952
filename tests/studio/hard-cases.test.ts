/** Lessons and scores as no author wishes for: nothing is lost, and the words say what is so. */
import { readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { plainLesson, plainScore } from '../../benchmarks/studio-lessons.js';
import { bench } from '../workshop/bench.js';
import { edit, isOpen, isSaved, opened, state, text, windowOf } from './studio-window.js';

const save = (page: Page): Promise<void> => page.getByRole('button', { name: 'Save', exact: true }).click();
const isTold = (page: Page, words: string): Promise<unknown> =>
  page.waitForFunction(
    said => document.querySelector('.notice')?.textContent?.includes(said) === true,
    words,
  );
const title = 'title: The way home by the mill road';

describe('a lesson of 2 MB', () => {
  it('opens, is told to be too long, and is saved whole', async () => {
    const on = await bench();
    const long = `${readFileSync(on.lesson, 'utf8')}\n${'# A remark that somebody has pasted here.\n'.repeat(48_000)}`;
    expect(long.length).toBeGreaterThan(2_000_000);
    writeFileSync(on.lesson, long);
    const { page } = await windowOf(await on.again({ lesson: on.lesson }));
    await page.waitForSelector('.claim-row.is-error');
    expect(await page.locator('.claim-row.is-error').first().textContent()).toMatch(
      /the lesson has .*, more than/,
    );
    await edit(page, title, 'title: Longer');
    await save(page);
    await isSaved(page);
    expect(readFileSync(on.lesson, 'utf8')).toBe(long.replace(title, 'title: Longer'));
  });
});

describe('a score of 500 bars', () => {
  it('is drawn to its last bar and judged, and written over meanwhile', async () => {
    const on = await bench();
    writeFileSync(join(on.folder, 'plain.abc'), plainScore(500));
    writeFileSync(on.lesson, plainLesson('plain.abc', 500, 300));
    const { page, reports } = await windowOf(await on.again({ lesson: on.lesson }));
    await page.waitForSelector('html[data-ready="true"]');
    await page.locator('.cm-line', { hasText: /^title: / }).click();
    await page.keyboard.press('End');
    await page.keyboard.type(', written on while it is drawn');
    expect(await text(page)).toContain('\ntitle: A plain piece, written on while it is drawn\n');
    await isOpen(page);
    expect(await page.locator('.claim-row').count()).toBe(300);
    expect(await page.locator('.claim-row.is-undecided, .claim-row.is-error').count()).toBe(0);
    await page.locator('.score-pane .sheet').focus();
    await page.keyboard.press('End');
    await page.waitForFunction(() => document.querySelector('.told h2')?.textContent?.startsWith('Bar 500'));
    // Chosen before it was drawn, the last bar comes into view once it is.
    await page.waitForSelector('.score-pane .sheet[aria-busy="false"]');
    const last = page.locator('.score-pane svg.system').last();
    expect(await last.locator('.chosen path').count()).toBe(2);
    const isInView = await last.evaluate(line => {
      const [own, sheet] = [line, line.closest('.sheet')].map(one => one?.getBoundingClientRect());
      return own !== undefined && sheet !== undefined && own.top < sheet.bottom && own.bottom > sheet.top;
    });
    expect(isInView).toBe(true);
    expect(reports).toEqual([]);
  });
});

describe('a broken score', () => {
  it('is told of with its file; the text can be written on, and its notes come back when it is mended', async () => {
    const { page, on } = await opened();
    const score = join(on.folder, 'mill-road.abc');
    const before = readFileSync(score, 'utf8');
    writeFileSync(score, 'X:1\nT:Nothing yet\nK:Bm\n');
    await page.waitForSelector('.claim-row.is-error');
    expect(await page.locator('.claim-row.is-error').first().textContent()).toContain('mill-road.abc: ');
    expect(await page.locator('.score-pane .sheet').textContent()).toBe(
      'The score that the lesson names stands here.',
    );
    await edit(page, title, 'title: Mine');
    await save(page);
    await isSaved(page);
    writeFileSync(score, before);
    await page.waitForSelector('.claim-row.is-holds');
    await page.waitForSelector('.score-pane svg.system');
    expect(await page.locator('.claim-row.is-error').count()).toBe(0);
  });

  it('that is no text is told of as well', async () => {
    const on = await bench();
    writeFileSync(join(on.folder, 'mill-road.abc'), new Uint8Array([0xff, 0xfe, 0x00, 0x80]));
    const { page } = await windowOf(await on.again({ lesson: on.lesson }));
    await isTold(page, '`mill-road.abc` is not UTF-8 text; save it as UTF-8 in another editor first');
    expect(await text(page)).toBe(readFileSync(on.lesson, 'utf8'));
  });
});

describe('a file that turns into something that is no text while it is open', () => {
  const noText = new Uint8Array([0xff, 0xfe, 0x00, 0x80]);
  it('is told of, a score with its last notes, and back again', async () => {
    const { page, on } = await opened();
    const score = join(on.folder, 'mill-road.abc');
    const before = readFileSync(score, 'utf8');
    writeFileSync(score, noText);
    await isTold(page, '`mill-road.abc` is not UTF-8 text; its notes are those that were read last.');
    expect(await page.locator('.claim-row.is-holds').count()).toBeGreaterThan(0);
    writeFileSync(score, before);
    await page.waitForFunction(() => document.querySelector('.notice')?.textContent === '');
  });

  it('is told of, a lesson with its last text, over which nothing is written', async () => {
    const { page, on } = await opened();
    const before = await text(page);
    await edit(page, title, 'title: Mine');
    writeFileSync(on.lesson, noText);
    await isTold(page, '`mill-road.yaml` is not UTF-8 text; its text stands here as it was read last');
    await save(page);
    await isTold(page, 'Not saved: `mill-road.yaml` is not UTF-8 text');
    expect([...readFileSync(on.lesson)]).toEqual([...noText]);
    expect(await text(page)).toBe(before.replace(title, 'title: Mine'));
  });
});

describe('a save that fails', () => {
  it('leaves the text in the window, says why, and works again when the folder is back', async () => {
    const { page, on } = await opened();
    const before = await text(page);
    renameSync(on.folder, `${on.folder}-away`);
    await edit(page, title, 'title: Mine');
    await save(page);
    await isTold(page, 'Not saved: ');
    expect([await text(page), await state(page)]).toEqual([
      before.replace(title, 'title: Mine'),
      'not saved',
    ]);
    renameSync(`${on.folder}-away`, on.folder);
    await save(page);
    await isSaved(page);
    expect(readFileSync(on.lesson, 'utf8')).toBe(before.replace(title, 'title: Mine'));
  });

  it('can be made good under another name', async () => {
    const { page, on } = await opened();
    const before = await text(page);
    await edit(page, title, 'title: Mine');
    await page.keyboard.press('Control+Shift+s');
    const dialog = page.getByRole('dialog', { name: 'Save the lesson as' });
    await dialog.getByRole('textbox').fill('other.txt');
    await dialog.getByRole('button', { name: 'Save in this folder' }).click();
    expect(await dialog.isVisible()).toBe(true);
    await dialog.getByRole('textbox').fill('other.yaml');
    await dialog.getByRole('button', { name: 'Save in this folder' }).click();
    await isSaved(page);
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('other.yaml');
    expect(readFileSync(join(on.folder, 'other.yaml'), 'utf8')).toBe(before.replace(title, 'title: Mine'));
    expect(readFileSync(on.lesson, 'utf8')).toBe(before);
  });
});

describe('a window that opens without a lesson', () => {
  it('offers unsaved work first, a draft that was never on the disk among it', async () => {
    const on = await bench();
    const first = await windowOf(on);
    await first.page.waitForSelector('html[data-ready="true"]');
    await first.page.getByRole('button', { name: 'New from a score' }).click();
    await first.page.getByRole('button', { name: 'mill-road.abc' }).click();
    await isOpen(first.page);
    expect(await state(first.page)).toBe('not saved');
    await edit(first.page, 'title: ', 'title: Drafted ');
    await first.page.waitForTimeout(1500);
    const drafted = await text(first.page);
    await first.page.context().close();

    const { page } = await windowOf(await on.again());
    const answers = page.getByRole('dialog', { name: 'Which lesson?' }).getByRole('button');
    await answers.first().waitFor();
    expect(await answers.first().textContent()).toMatch(
      /^Drafted .* \(mill-road-2\.yaml\), with unsaved work$/,
    );
    await answers.first().click();
    await page.getByRole('button', { name: 'Go on with the unsaved work' }).click();
    await isOpen(page);
    expect(await text(page)).toBe(drafted);
    await save(page);
    await isSaved(page);
    expect(readFileSync(join(on.folder, 'mill-road-2.yaml'), 'utf8')).toBe(drafted);
  });
});

describe('help', () => {
  it('says what keys and pointer do', async () => {
    const { page } = await opened();
    await page.getByRole('button', { name: 'Help' }).click();
    const dialog = page.getByRole('dialog', { name: 'Keys and pointer' });
    expect(await dialog.locator('h3').allTextContents()).toEqual(['Everywhere', 'Text', 'Score', 'Verdicts']);
    await page.keyboard.press('Escape');
    expect(await dialog.count()).toBe(0);
  });
});
