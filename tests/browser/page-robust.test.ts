import type { Browser, BrowserContext, Page } from 'playwright-core';
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

/** Opens the page in a world that `change` has altered before the page's own program runs. */
async function openWith(change: () => void): Promise<{ page: Page; errors: string[] }> {
  const context = await browser.newContext();
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('pageerror', error => errors.push(error.message));
  await page.addInitScript(change);
  await page.goto(address);
  await page.waitForSelector('html[data-ready]');
  return { page, errors };
}
const current = (page: Page) => page.locator('[aria-current=step] .step-title').textContent();

describe('where the browser does not help', () => {
  test('a full storage is no error', async () => {
    const { page, errors } = await openWith(() => {
      Storage.prototype.setItem = () => {
        throw new DOMException('full', 'QuotaExceededError');
      };
    });
    await page.getByRole('button', { name: 'Next step' }).click();
    await page.getByRole('button', { name: 'C sharp' }).click();
    await page.keyboard.press('c');
    expect(await page.locator('.summary p').first().textContent()).toContain('1 right, 1 of 1 settled');
    expect(errors).toEqual([]);
    await page.context().close();
  });

  test('what someone else wrote into the storage is not taken for progress', async () => {
    const { page, errors } = await openWith(() => {
      const id = 'barwise.progress.';
      const get = (name: string): string | null =>
        name.startsWith(id) ? '{"step":99,"heard":"x","answers":[{}]}' : '{{{';
      Storage.prototype.getItem = get;
    });
    expect(await current(page)).toBe('Step 3: The other bank');
    expect(await page.locator('.step.heard').count()).toBe(0);
    expect(errors).toEqual([]);
    await page.context().close();
  });

  test('without a sound device the lesson runs silently and says why', async () => {
    const { page, errors } = await openWith(() => {
      globalThis.AudioContext = function () {
        throw new DOMException('no device', 'NotSupportedError');
      } as unknown as typeof AudioContext;
    });
    await page.locator('.transport-play').click();
    await page.waitForSelector('.sounding');
    expect(await page.locator('.notice').textContent()).toBe(
      'No sound: no device. Words and marks run all the same.',
    );
    expect(errors).toEqual([]);
    await page.context().close();
  });

  test('a sound device that never answers holds nothing up for long', async () => {
    const { page, errors } = await openWith(() => {
      AudioContext.prototype.resume = () => new Promise(() => undefined);
    });
    await page.locator('.transport-play').click();
    await page.waitForSelector('.sounding', { timeout: 9000 });
    expect(await page.locator('.notice').textContent()).toContain('the sound device does not answer');
    expect(errors).toEqual([]);
    await page.context().close();
  });

  test('no sound is begun, and no context made, before a press', async () => {
    const { page } = await openWith(() => {
      const made: number[] = [];
      Object.assign(globalThis, { made });
      const Original = AudioContext;
      globalThis.AudioContext = class extends Original {
        constructor() {
          super();
          made.push(1);
        }
      };
    });
    const made = () => page.evaluate(() => (globalThis as unknown as { made: number[] }).made.length);
    await page.waitForTimeout(800);
    expect(await made()).toBe(0);
    await page.locator('.transport-play').click();
    await page.waitForSelector('.sounding');
    expect(await made()).toBe(1);
    await page.context().close();
  });
});

describe('time away', () => {
  test('after an hour of sleep the lesson goes on where it was, in step', async () => {
    const { page, errors } = await openWith(() => {
      const Original = AudioContext;
      globalThis.AudioContext = class extends Original {
        constructor() {
          super();
          Object.assign(globalThis, { device: this });
        }
      };
      // Some systems count the time of their sleep, the sound device never does.
      const now = performance.now.bind(performance);
      let slept = 0;
      performance.now = () => now() + slept;
      Object.assign(globalThis, {
        sleepAnHour: () => {
          slept += 3_600_000;
        },
      });
    });
    await page.locator('.transport-play').click();
    await page.waitForFunction(() => document.querySelector('.time')?.textContent.startsWith('0:02'));
    const after = await page.evaluate(async () => {
      const { device, sleepAnHour } = globalThis as unknown as {
        device: AudioContext;
        sleepAnHour: () => void;
      };
      await device.suspend();
      sleepAnHour();
      await device.resume();
      await new Promise(requestAnimationFrame);
      await new Promise(requestAnimationFrame);
      return document.querySelector('.time')?.textContent;
    });
    expect(after).toMatch(/^0:0[23] /);
    // From here a beat of the practice lesson still lasts its 0.75 s: the marks follow the sound.
    const beats = await page.evaluate(async () => {
      const seen: { names: string; at: number }[] = [];
      while (seen.length < 4) {
        const names = [...document.querySelectorAll('.sounding')]
          .map(head => head.getAttribute('data-name'))
          .join(' ');
        if (names !== '' && names !== seen.at(-1)?.names) seen.push({ names, at: performance.now() });
        await new Promise(requestAnimationFrame);
      }
      return seen.map(({ at }) => at);
    });
    for (const gap of [(beats[2] ?? 0) - (beats[1] ?? 0), (beats[3] ?? 0) - (beats[2] ?? 0)])
      expect(Math.abs(gap / 750 - Math.round(gap / 750))).toBeLessThan(0.12);
    expect(errors).toEqual([]);
    await page.context().close();
  });

  test('while the device sleeps the lesson stands still, and goes on in step when it wakes', async () => {
    const { page, errors } = await openWith(() => {
      const Original = AudioContext;
      globalThis.AudioContext = class extends Original {
        constructor() {
          super();
          Object.assign(globalThis, { device: this });
        }
      };
    });
    await page.locator('.transport-play').click();
    await page.waitForFunction(() => document.querySelector('.time')?.textContent.startsWith('0:02'));
    const during = await page.evaluate(async () => {
      const { device } = globalThis as unknown as { device: AudioContext };
      await device.suspend();
      const before = document.querySelector('.time')?.textContent;
      await new Promise(resolve => setTimeout(resolve, 3000));
      const after = document.querySelector('.time')?.textContent;
      await device.resume();
      return { before, after };
    });
    expect(during.after).toBe(during.before);
    await page.waitForFunction(() => document.querySelector('.time')?.textContent.startsWith('0:04'));
    expect(await page.locator('.sounding').count()).toBeGreaterThan(0);
    expect(errors).toEqual([]);
    await page.context().close();
  });
});

describe('several pages of one lesson', () => {
  test('do not disturb each other, and both are remembered', async () => {
    const first = await openPage(browser, address);
    const context: BrowserContext = first.page.context();
    const second = await context.newPage();
    await second.goto(address);
    await second.waitForSelector('html[data-ready]');
    await first.page.getByRole('button', { name: 'Next step' }).click();
    await first.page.getByRole('button', { name: 'C sharp' }).click();
    await second.getByRole('button', { name: /The other bank/ }).click();
    expect(await current(first.page)).toBe('Step 2: Out on the water');
    await first.page.reload();
    await first.page.waitForSelector('html[data-ready]');
    expect(await first.page.locator('.summary p').first().textContent()).toContain('1 right');
    expect(first.reports).toEqual([]);
    await context.close();
  });
});
