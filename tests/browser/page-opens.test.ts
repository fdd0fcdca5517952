import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { sourceText } from '../../src/diagnostics/index.js';
import { readScore } from '../../src/score/index.js';
import { launchBrowser } from './launch.js';
import { bundlePlayer, openPage, writePage } from './open-page.js';
import { practiceLesson, practiceWaltz } from './practice-lesson.js';

let browser: Browser;
let address: string;

beforeAll(async () => {
  browser = await launchBrowser();
  address = writePage(await practiceLesson(await bundlePlayer()));
});
afterAll(() => browser.close());

describe('the page, opened from the disk', () => {
  test('asks for nothing and reports nothing', async () => {
    const { page, reports, requests } = await openPage(browser, address);
    expect(await page.title()).toBe('How the ferry leaves the bank');
    expect(requests).toEqual([]);
    expect(reports).toEqual([]);
    await page.context().close();
  });

  test('has the notes of every bar, the labels of the step, and its words', async () => {
    const { page } = await openPage(browser, address);
    const { notes } = readScore(sourceText('practice.abc', practiceWaltz)).value;
    const drawn = await page
      .locator('.score .system .abcjs-note path[data-name]')
      .evaluateAll(shapes => shapes.map(shape => shape.getAttribute('data-name') ?? ''));
    const heads = drawn.filter(name => /^[_^=]*[A-Ga-g][,']*$/.test(name));
    expect(heads).toHaveLength(notes.length);
    expect(await page.locator('.label-numerals').allTextContents()).toEqual(['i', 'i', 'i', 'V7', 'i']);
    expect(await page.locator('.step .step-title').allTextContents()).toEqual([
      'Step 1: Four bars at the bank',
      'Step 2: Out on the water',
      'Step 3: The other bank',
    ]);
    expect(await page.locator('.step.current p').first().textContent()).toBe(
      'Four bars, and all of them in D minor.',
    );
    await page.context().close();
  });

  test('says which voice is heard alone, and why the author keeps what the notes do not say outright', async () => {
    const made = await practiceLesson(await bundlePlayer());
    const events = made.timeline.events.map(event =>
      event.kind === 'passage' && event.step === 0 ? { ...event, voiceName: 'Left hand' } : event,
    );
    const claims = made.claims.map(({ claim, verdict }) =>
      verdict.verdict === 'arguable'
        ? { claim: { ...claim, accept: { value: 'we come back to it', span: claim.span } }, verdict }
        : { claim, verdict },
    );
    const { page } = await openPage(
      browser,
      writePage({ ...made, claims, timeline: { ...made.timeline, events } }),
    );
    expect(await page.locator('.play-line').allInnerTexts()).toContain(
      'Play the pickup and bars 1–4, Left hand alone',
    );
    await page.getByRole('button', { name: 'Next step' }).click();
    expect(await page.locator('.step-claims li').allInnerTexts()).toEqual([
      expect.stringMatching(/^bar 6 is viio6\s+We come back to it\.$/u),
    ]);
    await page.context().close();
  });

  test('the options are seen whole', async () => {
    const { page } = await openPage(browser, address);
    await page.getByText('Options').click();
    const panel = page.locator('.options .panel');
    expect(await panel.evaluate(each => each.scrollHeight - each.clientHeight)).toBe(0);
    await page.context().close();
  });

  test.each([360, 820, 1600])('fits a window %i wide without scrolling sideways', async width => {
    const { page } = await openPage(browser, address, { width, height: 760 });
    const overflow = await page.evaluate(() =>
      [document.documentElement, ...document.querySelectorAll('.music, .words, .controls')]
        .filter(element => element.scrollWidth > element.clientWidth)
        .map(element => element.className || element.tagName),
    );
    expect(overflow).toEqual([]);
    await page.context().close();
  });

  test.each([
    [360, 760],
    [768, 1024],
    [1280, 800],
  ])('its parts scroll by themselves in a window of %i by %i, not the page', async (width, height) => {
    const { page } = await openPage(browser, address, { width, height });
    await page.getByRole('button', { name: 'Next step' }).click();
    await page.getByText('The notes in words').nth(1).click();
    expect(await page.evaluate(() => document.documentElement.scrollHeight)).toBe(height);
    await page.context().close();
  });

  test('labels do not run into one another', async () => {
    const { page } = await openPage(browser, address, { width: 360, height: 760 });
    const boxes = await page.evaluate(() =>
      [...document.querySelectorAll('.system .label-chords, .system .label-numerals')].map(label => {
        const { left, right, top, bottom } = label.getBoundingClientRect();
        return { left, right, top, bottom };
      }),
    );
    const touching = boxes.flatMap((a, index) =>
      boxes
        .slice(index + 1)
        .filter(b => a.left < b.right && b.left < a.right && a.top + 3 < b.bottom && b.top + 3 < a.bottom),
    );
    expect(boxes).toHaveLength(10);
    expect(touching).toEqual([]);
    await page.context().close();
  });

  test('each label stands under the first note of its harmony', async () => {
    const { page } = await openPage(browser, address);
    const away = await page.evaluate(() => {
      const xs = [...document.querySelectorAll('.system .abcjs-note path[data-name]')].map(
        head => head.getBoundingClientRect().left,
      );
      return [...document.querySelectorAll('.label-numerals')].map(label =>
        Math.min(...xs.map(x => Math.abs(x - label.getBoundingClientRect().left))),
      );
    });
    expect(away).toHaveLength(5);
    for (const distance of away) expect(distance).toBeLessThan(4);
    await page.context().close();
  });

  test.each([360, 1280])('words at the end of a line stay on a sheet %i wide', async width => {
    const abc = practiceWaltz.replace('A2 |]', '"^a tempo e tranquillo"A2 |]');
    const { page } = await openPage(browser, writePage(await practiceLesson(await bundlePlayer(), { abc })), {
      width,
    });
    const beyond = await page.locator('.score .system').evaluateAll(systems =>
      systems.flatMap(system => {
        const { right } = system.getBoundingClientRect();
        return [...system.querySelectorAll('text')]
          .filter(text => text.getBoundingClientRect().right > right + 1)
          .map(text => text.textContent);
      }),
    );
    expect(await page.getByText('a tempo e tranquillo').count()).toBe(1);
    expect(beyond).toEqual([]);
    await page.context().close();
  });

  // ABC 2.1, section 3.1.2: a second T: field holds an alternate title; it must not cost the metre.
  test.each([360, 1280])('the metre stands in every staff of the first line alone, %i wide', async width => {
    const abc = practiceWaltz.replace('C:written', 'T:a short crossing\nC:written');
    const { page } = await openPage(browser, writePage(await practiceLesson(await bundlePlayer(), { abc })), {
      width,
    });
    const drawn = await page
      .locator('.score .system')
      .evaluateAll(systems =>
        systems.map(system =>
          [...system.querySelectorAll('.abcjs-time-signature path')]
            .filter(path => path.getBoundingClientRect().height > 5)
            .map(path => path.getAttribute('data-name')),
        ),
      );
    expect(drawn.length).toBeGreaterThan(1);
    expect(drawn).toEqual(drawn.map((_, line) => (line === 0 ? ['3', '4', '3', '4'] : [])));
    await page.context().close();
  });

  test.each([
    ['', true],
    ['#step-3', false],
  ])(
    'opened at "%s" it shows the words of that step, and its title only at the beginning',
    async (hash, title) => {
      const { page } = await openPage(browser, address + hash, { width: 1280, height: 560 });
      const seen = (selector: string): Promise<boolean> =>
        page.locator(selector).evaluate(element => {
          const { top, bottom } = element.getBoundingClientRect();
          const around = element.closest('.words')?.getBoundingClientRect();
          return around !== undefined && top >= around.top && bottom <= around.bottom;
        });
      await page.waitForFunction(() => document.querySelector('.step.current .step-head') !== null);
      // Scrolling may be smooth.
      await expect.poll(() => seen('.step.current .step-head')).toBe(true);
      await expect.poll(() => seen('h1')).toBe(title);
      await page.context().close();
    },
  );

  // A suspension is the dissonance after the bar line, not the consonance that prepares it (Open Music Theory, "Embellishing Tones").
  test('a suspension is marked at the head that is tied over, and its letters touch no note', async () => {
    const abc = practiceWaltz.replace('| d2 e | f2 e |', '| d2 f- | f2 e |');
    const lesson = await practiceLesson(await bundlePlayer(), { abc });
    const [own] = lesson.scores;
    const struck = own?.analysis.score.notes.find(({ tiedTo }) => tiedTo !== undefined)?.id;
    if (own === undefined || struck === undefined) throw new Error('no tie');
    const tone = {
      note: struck,
      kind: 'suspension',
      figure: '4-3',
      accented: true,
      chromatic: false,
    } as const;
    const segments = own.analysis.segments.map((segment, index) =>
      index === 2 ? { ...segment, nonChordTones: [tone] } : segment,
    );
    const marked = { ...own, analysis: { ...own.analysis, segments } };
    const { page } = await openPage(browser, writePage({ ...lesson, scores: [marked] }));
    const { mark, heads, touched } = await page.evaluate(() => {
      const rect = (element: Element): DOMRect => element.getBoundingClientRect();
      const label = document.querySelector('.tone-mark');
      const box = label === null ? new DOMRect() : rect(label);
      const shapes = [...document.querySelectorAll('.score .system .abcjs-note path')].map(rect);
      return {
        mark: { text: label?.textContent, x: (box.left + box.right) / 2 },
        heads: [...document.querySelectorAll('.score .abcjs-note path[data-name="f"]')].map(
          one => rect(one).x,
        ),
        // The box of a text is that of its face, higher than its letters.
        touched: shapes.filter(
          ({ left, right, top, bottom }) =>
            left < box.right && box.left < right && top < box.bottom - 5 && box.top + 5 < bottom,
        ).length,
      };
    });
    expect(mark.text).toBe('sus 4–3');
    expect(Math.abs(mark.x - (heads[1] ?? 0))).toBeLessThan(20);
    expect(Math.abs(mark.x - (heads[0] ?? 0))).toBeGreaterThan(40);
    expect(touched).toBe(0);
    await page.context().close();
  });

  test.each([
    [360, false, ', as it was danced at home'],
    [1000, false, ', as it was danced at home'],
    [1280, false, ', as it was danced at home'],
    [1280, false, ' at ten'],
    [1280, true, ', as it was danced at home'],
    [1920, true, ', as it was danced at home'],
  ])(
    'the title of the piece keeps off the buttons, %i wide, labels covered: %s, %s',
    async (width, covered, more) => {
      const abc = practiceWaltz.replace("The Ferryman's Waltz", `The Ferryman's Waltz${more}`);
      const { page } = await openPage(
        browser,
        writePage(await practiceLesson(await bundlePlayer(), { abc })),
        {
          width,
        },
      );
      if (covered) {
        await page.getByText('Options').click();
        await page.getByLabel('Cover labels').check();
        await page.keyboard.press('Escape');
        await page.getByRole('button', { name: 'Uncover next' }).waitFor();
      }
      const touching = await page.evaluate(() => {
        const range = document.createRange();
        const lines = [...document.querySelectorAll('.sheet-title p')].flatMap(title => {
          range.selectNodeContents(title);
          return [...range.getClientRects()];
        });
        const buttons = [...document.querySelectorAll('.score-tools button:not([hidden])')];
        return buttons.filter(button => {
          const { left, right, top, bottom } = button.getBoundingClientRect();
          return lines.some(
            line => line.left < right + 8 && left - 8 < line.right && line.top < bottom && top < line.bottom,
          );
        }).length;
      });
      expect(touching).toBe(0);
      await page.context().close();
    },
  );
});
