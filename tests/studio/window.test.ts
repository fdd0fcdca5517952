/** The workshop's window in a real browser over the real host: what an author types and sees. */
import { readFileSync, renameSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { cursorBehind, edit, opened, text } from './studio-window.js';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** How many claims hold. */
const holding = async (page: Page): Promise<number> =>
  Number(/ (\d+) holds/.exec((await page.locator('.counts').textContent()) ?? '')?.[1] ?? NaN);
const areHolding = (page: Page, count: number): Promise<unknown> =>
  page.waitForFunction(
    words => document.querySelector('.counts')?.textContent?.includes(words) === true,
    ` ${String(count)} holds`,
  );

describe('the window', () => {
  it('checks while the author types, and writes the nearest true sentence', async () => {
    const { page, reports } = await opened();
    expect(await page.locator('.counts').textContent()).toMatch(
      /^0 fails · 0 undecided · 0 arguable · \d+ holds$/,
    );
    await edit(page, '{bar 2 is V43}', '{bar 2 is V65}');
    await page.waitForSelector('.claim-row.is-fails');
    expect(await page.locator('.claim-row.is-fails .sentence').textContent()).toBe('bar 2 is V65');
    const write = page.locator('.verdicts .write');
    expect(await write.allTextContents()).toEqual(['write: bar 2 is V43']);
    await page.locator('.claim-row.is-fails').click();
    await page.locator('.cm-lintRange-error').first().hover();
    await page.getByRole('button', { name: 'write: bar 2 is V43' }).click();
    await page.waitForFunction(() => document.querySelector('.is-fails') === null);
    // What cannot be read has no verdict, and is not counted among the undecided.
    await edit(page, '{bar 2 is V43}', '{bar 2 wanders off}');
    await page.waitForSelector('.claim-row.is-unjudged');
    expect(await page.locator('.counts').textContent()).toMatch(
      /^0 fails · 0 undecided · 0 arguable · \d+ holds · 1 not checked · 1 error in the text$/,
    );
    expect(await page.locator('.claim-row.is-unjudged .verdict').textContent()).toBe('not checked');
    // It is told once, at the claim; the sentence that was meant is one press away, or one key at its line.
    await edit(page, '{bar 2 wanders off}', '{m. 2 was V43}');
    await page.waitForFunction(() => document.querySelector('.write')?.textContent === 'write: bar 2 is V43');
    expect(await page.locator('.claim-row.is-error').count()).toBe(0);
    const misspelt = await text(page);
    await write.click();
    await page.waitForFunction(() => document.querySelector('.is-unjudged') === null);
    expect(await text(page)).toBe(misspelt.replace('{m. 2 was V43}', '{bar 2 is V43}'));
    await page.keyboard.press('Control+z');
    await page.waitForSelector('.claim-row.is-unjudged');
    expect(await text(page)).toBe(misspelt);
    await cursorBehind(page, '{m. 2');
    await page.keyboard.press('F9');
    await page.waitForFunction(() => document.querySelector('.is-unjudged') === null);
    expect(await text(page)).toBe(misspelt.replace('{m. 2 was V43}', '{bar 2 is V43}'));
    expect(reports).toEqual([]);
  });

  it('completes what is typed from the format, the score and the claim language', async () => {
    const { page } = await opened();
    const held = await holding(page);
    await cursorBehind(page, '- bars 4-5 tonicize E minor');
    await page.locator('.cm-content').focus();
    await page.keyboard.press('Enter');
    await page.keyboard.type('- bar 2 is V', { delay: 30 });
    const offers = page.locator('.cm-tooltip-autocomplete li');
    await offers.filter({ hasText: 'V43heard in bar 2' }).waitFor();
    // What is offered begins at one edge, the reasons end at the other.
    const lefts = await offers
      .locator('.cm-completionLabel')
      .evaluateAll(labels => labels.map(label => Math.round(label.getBoundingClientRect().left)));
    expect(new Set(lefts).size).toBe(1);
    expect(await offers.first().textContent()).toBe('V43heard in bar 2');
    // A list that has only just appeared takes no key, so that nobody accepts what they have not seen.
    await page.waitForTimeout(150);
    await page.keyboard.press('Enter');
    expect(await text(page)).toContain('      - bars 4-5 tonicize E minor\n      - bar 2 is V43\n');
    await areHolding(page, held + 1);
    // The claim at the cursor is marked among the verdicts, and a key leads on to the next one.
    expect(await page.locator('.is-here .sentence').textContent()).toBe('bar 2 is V43');
    await page.keyboard.press('F4');
    expect(await page.locator('.is-here .sentence').textContent()).toBe('the bass of bar 6 is E♯');
    await page.keyboard.press('Shift+F4');
    await page.keyboard.press('Shift+F4');
    expect(await page.locator('.is-here .sentence').textContent()).toBe('bars 4-5 tonicize E minor');
  });

  it('mends a misspelt key with one press', async () => {
    const { page } = await opened();
    const before = await text(page);
    await edit(page, 'narrator: ', 'narator: ');
    await page.waitForSelector('.claim-row.is-error');
    await page.locator('.cm-lintRange-error').first().hover();
    await page.getByRole('button', { name: 'write: narrator' }).click();
    await page.waitForFunction(() => document.querySelector('.is-error') === null);
    expect(await text(page)).toBe(before);
  });

  it('keeps the score while the text cannot be read', async () => {
    const { page } = await opened();
    const held = await holding(page);
    await edit(page, 'home: B minor', 'home: B');
    await page.waitForFunction(() =>
      document.querySelector('.counts')?.textContent?.startsWith('the lesson cannot be read'),
    );
    expect(await page.locator('.score-pane svg.system').count()).toBeGreaterThan(3);
    await edit(page, 'home: B', 'home: B minor');
    await areHolding(page, held);
  });

  it('tells what stands in the bars that the keyboard chooses, and writes a claim that holds', async () => {
    const { page } = await opened();
    const held = await holding(page);
    await page.locator('.score-pane .sheet').focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await page.waitForSelector('.told h2');
    expect(await page.locator('.told h2').textContent()).toBe('Bar 1 write 1');
    expect(await page.locator('.harmonies li').first().textContent()).toMatch(/^bar 1 Bm, i in B minor/);
    await page.keyboard.press('Shift+ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    await page.waitForFunction(() => document.querySelector('.told h2')?.textContent?.startsWith('Bars 1–3'));
    await page.keyboard.press('Shift+ArrowLeft');
    await page.waitForFunction(() => document.querySelector('.told h2')?.textContent?.startsWith('Bars 1–2'));
    expect(await page.locator('.offers button').allTextContents()).toEqual(
      expect.arrayContaining(['bars 1-2 are in B minor', 'bar 1 is i', 'bar 2 is V43']),
    );
    const before = await text(page);
    await page.locator('.offers button', { hasText: /^bars 1-2 are in B minor$/ }).click();
    await areHolding(page, held + 1);
    // The cursor stands at the top: the first step has no claims of its own yet.
    expect(await text(page)).toBe(
      before.replace(
        '    show: [keys]\n',
        '    show: [keys]\n    claims:\n      - bars 1-2 are in B minor\n',
      ),
    );
    await page.keyboard.press('Control+z');
    expect(await text(page)).toBe(before);
  });

  it('lets bars be dragged over, and writes them where the text awaits a bar', async () => {
    const { page } = await opened();
    const before = await text(page);
    const centre = async (index: number): Promise<readonly [number, number]> => {
      const box = await page.locator('.score-pane svg.system').nth(index).boundingBox();
      if (box === null) throw new Error('no line of the score');
      return [box.x + box.width / 2, box.y + box.height / 3];
    };
    const drag = async (): Promise<string> => {
      await page.mouse.move(...(await centre(0)));
      await page.mouse.down();
      await page.mouse.move(...(await centre(1)), { steps: 4 });
      await page.mouse.up();
      await page.waitForSelector('.told h2');
      return (
        /^Bars (\d+–\d+) /.exec((await page.locator('.told h2').textContent()) ?? '')?.[1] ?? ''
      ).replace('–', '-');
    };
    const range = await drag();
    expect(range).toMatch(/^[12]-[67]$/);
    expect(await text(page)).toBe(before);

    await edit(page, '    bars: 1-3\n', '    bars: \n');
    await cursorBehind(page, 'A stair in the bass\n    bars: ');
    await drag();
    expect(await text(page)).toBe(before.replace('    bars: 1-3\n', `    bars: ${range}\n`));
    // Another choice takes its place; a third one, after something was typed, does not.
    await page.mouse.click(...(await centre(0)));
    const told = page.locator('.told h2', { hasText: /^Bar \d/u });
    const single = /^Bar (\d+) /.exec((await told.textContent()) ?? '')?.[1] ?? '';
    expect(await text(page)).toBe(before.replace('    bars: 1-3\n', `    bars: ${single}\n`));
    await page.locator('.cm-content').focus();
    await page.keyboard.type(' ');
    await page.mouse.click(...(await centre(1)));
    expect(await text(page)).toBe(before.replace('    bars: 1-3\n', `    bars: ${single} \n`));
  });

  it("shows the student's page", async () => {
    const { page } = await opened();
    await page.waitForSelector('iframe[data-page]');
    const frame = page.frameLocator('iframe');
    await frame.getByRole('heading', { name: 'The way home by the mill road' }).waitFor();
    // Pages that were replaced are not among those that one comes to by going back.
    const before = await page.evaluate(() => history.length);
    const former = await page.locator('iframe').getAttribute('data-page');
    await edit(page, 'title: The way home by the mill road', 'title: Another way');
    await page.waitForSelector(`iframe:not([data-page="${former ?? ''}"])`);
    await frame.getByRole('heading', { name: 'Another way' }).waitFor();
    const status = page.locator('.preview-pane [role=status]');
    expect(await status.textContent()).toBe('The page is made, from the text as it stands.');
    await edit(page, 'title: Another way', 'title: A third way');
    expect(await status.textContent()).toBe('The text has changed since the page was made.');
    expect(await page.evaluate(() => history.length)).toBe(before);
  });

  it.each([1024, 1280, 1600])(
    'keeps its commands in one row and words beside their boxes at %i pixels',
    async width => {
      const { page, on } = await opened();
      await page.setViewportSize({ width, height: 768 });
      // A name as long as names of files get, not saved yet, so that the state is long as well.
      const name = `${'a-long-name-of-a-lesson-'.repeat(4)}.yaml`;
      renameSync(on.lesson, join(on.folder, name));
      await page.getByRole('heading', { level: 1 }).evaluate((heading, words) => {
        heading.textContent = words;
      }, name);
      await page.locator('.bar .quiet', { hasText: 'not saved' }).waitFor();
      const tops = (selector: string): Promise<readonly number[]> =>
        page
          .locator(selector)
          .evaluateAll(found => found.map(one => Math.round(one.getBoundingClientRect().top)));
      expect(new Set(await tops('.bar button')).size).toBe(1);
      const heights = await page
        .locator('.filter label')
        .evaluateAll(labels => labels.map(label => label.getBoundingClientRect().height));
      expect(Math.max(...heights)).toBeLessThan(28);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
    },
  );

  it('is free of violations that axe-core finds', async () => {
    const { page } = await opened();
    await page.evaluate(axe);
    const broken = await page.evaluate(async () => {
      const { axe: runner } = globalThis as unknown as {
        axe: { run: (root: Document, options: object) => Promise<AxeResults> };
      };
      // The student's page inside the frame has tests of its own.
      const { violations } = await runner.run(document, { iframes: false });
      return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 120)}`));
    });
    expect(broken).toEqual([]);
  });
});
