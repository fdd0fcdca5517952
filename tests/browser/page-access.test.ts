import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launchBrowser } from './launch.js';
import { bundlePlayer, openPage, timelineOf, writePage } from './open-page.js';
import { practiceLesson } from './practice-lesson.js';

let browser: Browser;
let address: string;
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

beforeAll(async () => {
  browser = await launchBrowser();
  address = writePage(await practiceLesson(await bundlePlayer()));
});
afterAll(() => browser.close());

/** Rules of WCAG 2.2 A and AA and axe's own good practice that the page breaks, with the element. */
async function violations(page: Page): Promise<readonly string[]> {
  // Past the page's policy, as a browser's own tools are.
  await page.evaluate(axe);
  const results = await page.evaluate(async () => {
    const { axe: runner } = globalThis as unknown as {
      axe: { run: (root: Document) => Promise<AxeResults> };
    };
    return runner.run(document);
  });
  expect(results.passes.length).toBeGreaterThan(15);
  return results.violations.flatMap(({ id, nodes }) => nodes.map(node => `${id}: ${node.target.join(' ')}`));
}

describe.each([
  { width: 1280, height: 800, dark: false },
  { width: 1280, height: 800, dark: true },
  { width: 360, height: 760, dark: false },
  { width: 360, height: 760, dark: true },
])('accessible at $width by $height, dark: $dark', options => {
  test('as opened', async () => {
    const { page } = await openPage(browser, address, options);
    expect(await violations(page)).toEqual([]);
    await page.context().close();
  });

  test('while music plays', async () => {
    const { page } = await openPage(browser, address, options);
    await page.locator('.transport-play').click();
    await page.waitForSelector('.sounding');
    expect(await violations(page)).toEqual([]);
    await page.context().close();
  });

  test('while words are spoken, with captions and the reason of a claim', async () => {
    const { page } = await openPage(browser, address, options);
    await page.keyboard.press('c');
    const speech = (await timelineOf(page)).events.find(event => event.kind === 'speech');
    await page
      .getByRole('slider', { name: 'Place in the lesson' })
      .fill(String(Math.ceil(speech?.start ?? 0)));
    await page.locator('.claim-mark').nth(1).click();
    await page.waitForSelector('.word.spoken');
    expect(await violations(page)).toEqual([]);
    await page.context().close();
  });

  test('with an answered question and the notes in words', async () => {
    const { page } = await openPage(browser, address, options);
    await page.getByRole('button', { name: 'Next step' }).click();
    await page.getByRole('button', { name: 'B flat' }).click();
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: 'C sharp' }).click();
    await page.locator('.step.current .in-words summary').click();
    expect(await violations(page)).toEqual([]);
    await page.context().close();
  });

  test('looking closely at bars and at a note, with labels covered', async () => {
    const { page } = await openPage(browser, address, options);
    await page.getByText('Options').click();
    await page.getByLabel('Cover labels, uncover one by one').check();
    await page.keyboard.press('Escape');
    await page.keyboard.press('w');
    await page.keyboard.press('ArrowRight');
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('u');
    expect(await violations(page)).toEqual([]);
    await page.context().close();
  });

  test('while practising, with an answer judged, and at its end', async () => {
    const { page } = await openPage(browser, address, options);
    await page.getByRole('button', { name: 'Practise' }).click();
    await page.locator('.practice input[type=text]').fill('V7');
    await page.keyboard.press('Enter');
    await page.waitForSelector('.practice .claim-note');
    expect(await violations(page)).toEqual([]);
    for (let bar = 0; bar < 4; bar++) await page.getByRole('button', { name: 'Next', exact: true }).click();
    expect(await violations(page)).toEqual([]);
    await page.context().close();
  });

  test('with the transcript searched', async () => {
    const { page } = await openPage(browser, address, options);
    await page.getByRole('button', { name: 'Transcript' }).click();
    await page.getByLabel('Search the words').fill('tone');
    await page.waitForSelector('.word.found');
    expect(await violations(page)).toEqual([]);
    await page.context().close();
  });

  test('with tempo and volumes open', async () => {
    const { page } = await openPage(browser, address, options);
    await page.locator('.pull-up summary').first().click();
    expect(await violations(page)).toEqual([]);
    await page.context().close();
  });

  test('with the options open', async () => {
    const { page } = await openPage(browser, address, options);
    await page.getByText('Options').click();
    expect(await violations(page)).toEqual([]);
    await page.context().close();
  });
});

describe('what is read aloud by itself', () => {
  test('is silent while the lesson runs, and is one short sentence when the step changes', async () => {
    const { page } = await openPage(browser, address);
    await page.keyboard.press('c');
    await page.evaluate(() => {
      const told: string[] = [];
      Object.assign(globalThis, { told });
      new MutationObserver(records => {
        for (const { target } of records) {
          const element = target instanceof Element ? target : target.parentElement;
          const region = element?.closest('[aria-live], [role=status], [role=alert], [role=log]');
          if (region !== null && region !== undefined) told.push(region.textContent);
        }
      }).observe(document, { subtree: true, childList: true, characterData: true });
    });
    const told = () => page.evaluate(() => (globalThis as unknown as { told: string[] }).told);
    const speech = (await timelineOf(page)).events.find(event => event.kind === 'speech');
    await page
      .getByRole('slider', { name: 'Place in the lesson' })
      .fill(String(Math.floor(speech?.start ?? 0) - 3));
    await page.locator('.transport-play').click();
    // Music, then words with captions.
    await page.waitForSelector('.sounding');
    await page.waitForFunction(() => document.querySelectorAll('.caption .spoken').length > 0);
    await page.waitForTimeout(1500);
    expect(await told()).toEqual([]);
    await page.keyboard.press('n');
    expect([...new Set(await told())]).toEqual(['Step 2 of 3: Out on the water']);
    await page.context().close();
  });
});
