/** Everything that a build makes, written from the window; and nothing where it is stopped. */
import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { toneWav } from '../workshop/tone.js';
import { opened } from './studio-window.js';

const exportInto = async (page: Page, folder: string): Promise<void> => {
  await page.getByRole('button', { name: 'Export', exact: true }).click();
  const dialog = page.getByRole('dialog', { name: 'Choose a folder for the page and its files' });
  await dialog.getByRole('button', { name: `${folder} /` }).click();
  await dialog.locator('p', { hasText: new RegExp(`/${folder}$`, 'u') }).waitFor();
  await dialog.getByRole('button', { name: 'This folder' }).click();
};

const isFault = (page: Page): Promise<boolean> =>
  page.locator('.notice').evaluate(notice => notice.classList.contains('is-fault'));

const short = `format: 1
title: Short
score: mill-road.abc
home: B minor
steps:
  - title: The beginning
    bars: 1-2
    say: "[Home]{bar 1 is i}."
`;

describe('an export', () => {
  it('tells how far it is, and what was written', async () => {
    const { page, on, reports } = await opened(({ folder, lesson }) => {
      mkdirSync(join(folder, 'out'));
      writeFileSync(lesson, short);
    });
    const told = page.locator('.export span');
    await exportInto(page, 'out');
    await told.waitFor();
    const doing = new Set<string>();
    while (await told.isVisible()) {
      doing.add((await told.textContent()) ?? '');
      await page.waitForTimeout(50);
    }
    expect(doing.size).toBeGreaterThan(2);
    const names = readdirSync(join(on.folder, 'out'));
    expect(names).toEqual(expect.arrayContaining(['mill-road.html', 'mill-road.vtt', 'mill-road.mp3']));
    expect(names.filter(name => name.endsWith('.part'))).toEqual([]);
    expect(await page.locator('.notice').textContent()).toBe(
      `${String(names.length)} files were written to ${join(on.folder, 'out')}`,
    );
    expect(await isFault(page)).toBe(false);
    expect(reports).toEqual([]);
  });

  it('says what is written and what is not where the folder of the takes cannot be written', async () => {
    const { page, on } = await opened(({ folder, lesson }) => {
      mkdirSync(join(folder, 'out'));
      // A folder stands where the words of the takes are noted.
      mkdirSync(join(folder, 'takes', 'takes.json', 'full'), { recursive: true });
      writeFileSync(join(folder, 'takes', '1.1.wav'), toneWav(2));
      writeFileSync(lesson, short);
    });
    await exportInto(page, 'out');
    await page.locator('.notice', { hasText: `files were written to ${join(on.folder, 'out')}; ` }).waitFor();
    expect(await page.locator('.notice').textContent()).toContain(
      'what each take was made for is not noted, because `takes/takes.json` cannot be written: ',
    );
    expect(await isFault(page)).toBe(true);
    expect(readdirSync(join(on.folder, 'out'))).toContain('mill-road.html');
  });

  it('that is stopped leaves nothing behind', async () => {
    const { page, on } = await opened(({ folder }) => mkdirSync(join(folder, 'out')));
    await exportInto(page, 'out');
    await page.locator('.export span', { hasText: /speak|mix/u }).waitFor();
    await page.getByRole('button', { name: 'Stop the export' }).click();
    await page.locator('.notice', { hasText: 'Nothing was exported: the export was cancelled' }).waitFor();
    expect(await isFault(page)).toBe(false);
    expect([existsSync(join(on.folder, 'out')), readdirSync(join(on.folder, 'out'))]).toEqual([true, []]);
  });
});
