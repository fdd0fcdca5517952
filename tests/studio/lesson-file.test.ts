/** The lesson in the window and its file: nothing of the author's and nothing of another program's is lost. */
import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { edit, isOpen, isSaved, opened, state, text, windowOf } from './studio-window.js';

const title = 'title: The way home by the mill road';
const steps = 'title: A stair in the bass';
const save = (page: Page): Promise<void> => page.getByRole('button', { name: 'Save', exact: true }).click();
const notice = (page: Page): Promise<string | null> => page.locator('.notice').textContent();
const isTold = (page: Page, words: string): Promise<unknown> =>
  page.waitForFunction(
    said => document.querySelector('.notice')?.textContent?.includes(said) === true,
    words,
  );

describe('a lesson is saved', () => {
  it('whole, from the keyboard and by the button', async () => {
    const { page, on, reports } = await opened();
    await edit(page, title, 'title: One');
    expect(await state(page)).toBe('not saved');
    await page.locator('.cm-content').focus();
    await page.keyboard.press('Control+s');
    await isSaved(page);
    expect(readFileSync(on.lesson, 'utf8')).toContain('\ntitle: One\n');
    await edit(page, 'title: One', 'title: Two');
    await save(page);
    await isSaved(page);
    expect(readFileSync(on.lesson, 'utf8')).toContain('\ntitle: Two\n');
    expect(reports).toEqual([]);
  });

  it('with the line ends that the file had', async () => {
    const { page, on } = await opened(({ lesson }) => {
      writeFileSync(lesson, readFileSync(lesson, 'utf8').replaceAll('\n', '\r\n'));
    });
    const before = readFileSync(on.lesson, 'utf8');
    expect(await state(page)).toBe('saved');
    await edit(page, title, 'title: One');
    await save(page);
    await isSaved(page);
    expect(readFileSync(on.lesson, 'utf8')).toBe(before.replace(title, 'title: One'));
  });
});

describe('what another program writes', () => {
  it('stands in the window at once where nothing is unsaved', async () => {
    const { page, on } = await opened();
    const theirs = readFileSync(on.lesson, 'utf8').replace(title, 'title: Theirs');
    writeFileSync(on.lesson, theirs);
    await isTold(page, 'its words stand here now');
    expect([await text(page), await state(page)]).toEqual([theirs, 'saved']);
  });

  it('is put together with what is unsaved, and one undo takes it back', async () => {
    const { page, on } = await opened();
    const before = await text(page);
    await edit(page, title, 'title: Mine');
    writeFileSync(on.lesson, before.replace(steps, 'title: Theirs'));
    await isTold(page, 'together with yours');
    expect(await page.locator('.notice.is-fault').count()).toBe(0);
    const merged = before.replace(title, 'title: Mine').replace(steps, 'title: Theirs');
    expect([await text(page), await state(page)]).toEqual([merged, 'not saved']);
    await page.locator('.cm-content').focus();
    await page.keyboard.press('Control+z');
    expect(await text(page)).toBe(before.replace(title, 'title: Mine'));
    await page.keyboard.press('Control+y');
    await save(page);
    await isSaved(page);
    expect(readFileSync(on.lesson, 'utf8')).toBe(merged);
  });

  it('in the same lines is asked about with both versions in sight', async () => {
    const { page, on, reports } = await opened();
    const before = await text(page);
    await edit(page, title, 'title: Mine');
    await edit(page, 'home: B minor', 'home: D major');
    writeFileSync(
      on.lesson,
      before
        .replace(title, 'title: Theirs')
        .replace('home: B minor', 'home: E minor')
        .replace(steps, 'title: Also theirs'),
    );
    const dialog = page.getByRole('dialog', { name: 'Another program has changed this file' });
    await dialog.waitFor();
    const conflict = (line: number) => dialog.getByRole('group', { name: `Line ${String(line)}` });
    expect(await conflict(3).locator('.side-by-side pre').allTextContents()).toEqual([
      'title: Mine',
      'title: Theirs',
    ]);
    expect(await conflict(8).locator('.side-by-side pre').allTextContents()).toEqual([
      'home: D major',
      'home: E minor',
    ]);
    await conflict(3).getByRole('radio', { name: 'both, what is here first' }).check();
    await conflict(8).getByRole('radio', { name: 'take what is on disk' }).check();
    await dialog.getByRole('button', { name: 'Go on with this choice' }).click();
    expect(await text(page)).toBe(
      before
        .replace(title, 'title: Mine\ntitle: Theirs')
        .replace('home: B minor', 'home: E minor')
        .replace(steps, 'title: Also theirs'),
    );
    expect(reports).toEqual([]);
  });

  it('waits where the author decides later, and is asked about again before anything is replaced', async () => {
    const { page, on } = await opened();
    const before = await text(page);
    await edit(page, title, 'title: Mine');
    const theirs = before.replace(title, 'title: Theirs');
    writeFileSync(on.lesson, theirs);
    const dialog = page.getByRole('dialog', { name: 'Another program has changed this file' });
    await dialog.waitFor();
    await page.keyboard.press('Escape');
    await isTold(page, 'asked again when you save');
    expect(await page.locator('.notice.is-fault').count()).toBe(1);
    expect(await text(page)).toBe(before.replace(title, 'title: Mine'));
    await save(page);
    await dialog.waitFor();
    expect(readFileSync(on.lesson, 'utf8')).toBe(theirs);
    await dialog.getByRole('button', { name: 'Go on with this choice' }).click();
    await isSaved(page);
    expect(readFileSync(on.lesson, 'utf8')).toBe(before.replace(title, 'title: Mine'));
  });
});

describe('a file that is deleted while it is open', () => {
  it('is told of, its text counts as unsaved, and saving writes it again', async () => {
    const { page, on } = await opened();
    const before = await text(page);
    rmSync(on.lesson);
    await isTold(page, 'mill-road.yaml is no longer on disk; its text is here, and saving writes it again.');
    expect([await text(page), await state(page)]).toEqual([before, 'not saved']);
    await save(page);
    await isSaved(page);
    expect([readFileSync(on.lesson, 'utf8'), await notice(page)]).toEqual([before, '']);
  });

  it('comes back with its text after a crash', async () => {
    const { page, on } = await opened();
    const before = await text(page);
    rmSync(on.lesson);
    await isTold(page, 'is no longer on disk');
    await page.waitForTimeout(300);
    await page.context().close();
    const second = await windowOf(await on.again({ lesson: on.lesson }));
    await second.page.getByRole('button', { name: 'Go on with the unsaved work' }).click();
    await isOpen(second.page);
    expect([await text(second.page), await state(second.page)]).toEqual([before, 'not saved']);
  });

  it('of notes leaves the verdicts as they are', async () => {
    const { page, on } = await opened();
    const held = await page.locator('.claim-row.is-holds').count();
    rmSync(on.lesson.replace('.yaml', '.abc'));
    await isTold(page, 'its notes are those that were read last');
    expect([await page.locator('.claim-row.is-holds').count(), held > 30]).toEqual([held, true]);
  });
});

describe('unsaved work', () => {
  it('is offered again after the window has died', async () => {
    const { page, on } = await opened();
    const before = await text(page);
    await edit(page, title, 'title: Not yet saved');
    await page.waitForTimeout(1500);
    await page.context().close();
    const second = await windowOf(await on.again({ lesson: on.lesson }));
    await second.page.getByRole('button', { name: 'Go on with the unsaved work' }).waitFor();
    // Whoever presses Enter without reading loses nothing.
    await second.page.keyboard.press('Enter');
    await isOpen(second.page);
    expect([await text(second.page), await state(second.page)]).toEqual([
      before.replace(title, 'title: Not yet saved'),
      'not saved',
    ]);
    expect(readFileSync(on.lesson, 'utf8')).toBe(before);
  });

  it('is put together with what another program wrote after the window had died', async () => {
    const { page, on } = await opened();
    const before = await text(page);
    await edit(page, title, 'title: Mine');
    await page.waitForTimeout(1500);
    await page.context().close();
    writeFileSync(on.lesson, before.replace(steps, 'title: Theirs'));
    const second = await windowOf(await on.again({ lesson: on.lesson }));
    await second.page.getByRole('button', { name: 'Go on with the unsaved work' }).click();
    await isTold(second.page, 'together with yours');
    const merged = before.replace(title, 'title: Mine').replace(steps, 'title: Theirs');
    expect(await text(second.page)).toBe(merged);
    await save(second.page);
    await isSaved(second.page);
    expect(readFileSync(on.lesson, 'utf8')).toBe(merged);
  });

  it('is kept by Escape, and comes back by undo where the file was taken', async () => {
    const { page, on } = await opened();
    const before = await text(page);
    const unsaved = before.replace(title, 'title: Not yet saved');
    await edit(page, title, 'title: Not yet saved');
    await page.waitForTimeout(1500);
    await page.context().close();
    const second = await windowOf(await on.again({ lesson: on.lesson }));
    await second.page.getByRole('heading', { name: 'There is unsaved work on mill-road.yaml' }).waitFor();
    await second.page.keyboard.press('Escape');
    await isOpen(second.page);
    expect(await text(second.page)).toBe(unsaved);
    await second.page.context().close();

    const third = await windowOf(await on.again({ lesson: on.lesson }));
    await third.page.getByRole('button', { name: 'Take the file on disk' }).click();
    await isOpen(third.page);
    expect(await text(third.page)).toBe(before);
    await third.page.locator('.cm-content').focus();
    await third.page.keyboard.press('Control+z');
    expect(await text(third.page)).toBe(unsaved);
  });
});
