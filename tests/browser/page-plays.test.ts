import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launchBrowser } from './launch.js';
import { bundlePlayer, openPage, timelineOf, writePage } from './open-page.js';
import { practiceLesson, practiceWaltz } from './practice-lesson.js';

let browser: Browser;
let address: string;

beforeAll(async () => {
  browser = await launchBrowser();
  address = writePage(await practiceLesson(await bundlePlayer()));
});
afterAll(() => browser.close());

const playButton = (page: Page) => page.getByRole('button', { name: /^(Play|Pause)$/ });
const secondsShown = async (page: Page): Promise<number> => {
  const shown = (await page.locator('.time').textContent()) ?? '';
  const [minutes = 0, seconds = 0] = shown.split(' / ')[0]?.split(':').map(Number) ?? [];
  return minutes * 60 + seconds;
};

describe('playing', () => {
  test('starts by a press, marks bar and notes in step, and stops by a press', async () => {
    const { page, reports, requests } = await openPage(browser, address);
    expect(await page.locator('.sounding').count()).toBe(0);
    await page.evaluate(() => {
      const seen: string[] = [];
      Object.assign(globalThis, { seen });
      new MutationObserver(() => {
        const names = [...document.querySelectorAll('.sounding')].map(head => head.getAttribute('data-name'));
        if (names.length > 0 && seen.at(-1) !== names.join(' ')) seen.push(names.join(' '));
      }).observe(document, { subtree: true, attributes: true, attributeFilter: ['class'] });
    });
    await playButton(page).click();
    expect(await playButton(page).textContent()).toBe('Pause');
    await page.waitForFunction(() => document.querySelectorAll('.sounding').length === 2);
    expect(await page.locator('.bar-now rect').count()).toBe(2);
    expect(await page.locator('.halo').count()).toBe(2);
    // Of the harmonies of the step the one that sounds is marked: i of bar 1, not that of the pickup before it.
    expect(
      await page
        .locator('.label-numerals')
        .evaluateAll(labels => labels.map(label => label.classList.contains('now'))),
    ).toEqual([false, true, false, false, false]);
    // The pickup A alone, then bar 1: D above, D in the bass.
    expect(await page.evaluate(() => (globalThis as unknown as { seen: string[] }).seen)).toEqual([
      'A',
      'd D,',
    ]);
    await playButton(page).click();
    expect(await playButton(page).textContent()).toBe('Play');
    const stopped = await secondsShown(page);
    await page.waitForTimeout(1200);
    expect(await secondsShown(page)).toBe(stopped);
    expect(reports).toEqual([]);
    expect(requests).toEqual([]);
    await page.context().close();
  });

  test('goes on from where it was paused', async () => {
    const { page } = await openPage(browser, address);
    await page.getByRole('slider', { name: 'Place in the lesson' }).fill('5');
    await playButton(page).click();
    await page.waitForFunction(() => document.querySelector('.time')?.textContent.startsWith('0:06'));
    await page.context().close();
  });

  test('follows the spoken words, and shows captions when they are wanted', async () => {
    const { page } = await openPage(browser, address);
    await page.getByText('Options').click();
    await page.getByLabel('Captions').check();
    await page.getByText('Options').click();
    const speech = (await timelineOf(page)).events.find(event => event.kind === 'speech');
    await page
      .getByRole('slider', { name: 'Place in the lesson' })
      .fill(String(Math.floor(speech?.start ?? 0)));
    await playButton(page).click();
    await page.waitForSelector('.word.spoken');
    const spoken = await page.evaluate(async () => {
      const seen: string[] = [];
      while (seen.length < 6) {
        const word = document.querySelector('.word.spoken')?.textContent;
        if (word !== undefined && seen.at(-1) !== word) seen.push(word);
        await new Promise(requestAnimationFrame);
      }
      return seen;
    });
    expect(spoken.slice(1)).toEqual(
      ['Four', 'bars,', 'and', 'all', 'of', 'them', 'in'].slice(spoken[0] === 'Four' ? 1 : 2).slice(0, 5),
    );
    expect(await page.locator('.caption').textContent()).toBe('Four bars, and all of them in D minor.');
    await page.context().close();
  });

  test('goes to the next and the previous step', async () => {
    const { page } = await openPage(browser, address);
    const current = () => page.locator('[aria-current=step] .step-title').textContent();
    await page.getByRole('button', { name: 'Next step' }).click();
    expect(await current()).toBe('Step 2: Out on the water');
    expect(await page.getByRole('status').textContent()).toBe('Step 2 of 3: Out on the water');
    await page.getByRole('button', { name: 'Next step' }).click();
    await page.getByRole('button', { name: 'Next step' }).click();
    expect(await current()).toBe('Step 3: The other bank');
    await page.getByRole('button', { name: 'Previous step' }).click();
    expect(await current()).toBe('Step 2: Out on the water');
    await page.getByRole('button', { name: /Four bars at the bank/ }).click();
    expect(await current()).toBe('Step 1: Four bars at the bank');
    await page.context().close();
  });

  test('waits at a question, keeps its labels back, judges the answer, and goes on', async () => {
    const { page } = await openPage(browser, address);
    await page.getByRole('button', { name: 'Next step' }).click();
    expect(await page.locator('.label').count()).toBe(0);
    const question = (await timelineOf(page)).events.find(event => event.kind === 'question');
    await page
      .getByRole('slider', { name: 'Place in the lesson' })
      .fill(String(Math.floor((question?.start ?? 0) - 1)));
    await playButton(page).click();
    await page.waitForSelector('.question.waiting');
    const waitingAt = await secondsShown(page);
    await page.waitForTimeout(1200);
    expect(await secondsShown(page)).toBe(waitingAt);
    await page.getByRole('button', { name: 'B flat' }).click();
    expect(await page.locator('.step.current .feedback').textContent()).toContain('Not quite');
    expect(await page.locator('.label').count()).toBe(0);
    await page.getByRole('button', { name: 'C sharp' }).click();
    expect(await page.locator('.step.current .feedback').textContent()).toContain('Yes. C sharp');
    expect(await page.locator('.label-numerals').allTextContents()).toEqual(['iv', 'vii°6', 'V7', 'i']);
    await page.getByRole('button', { name: 'Go on' }).click();
    await page.waitForFunction(() => document.querySelector('.question.waiting') === null);
    expect(await secondsShown(page)).toBeGreaterThanOrEqual(Math.floor(question?.end ?? 0));
    await page.context().close();
  });

  test('keeps back what stands behind a question until it is answered, or the lesson has gone past it', async () => {
    const { page } = await openPage(browser, address);
    const body = page.locator('.step.current .step-body');
    const note = 'The rest of this step is shown once you have answered, or gone on.';
    await page.getByRole('button', { name: 'Next step' }).click();
    expect(await body.innerText()).toContain(note);
    expect(await body.innerText()).not.toContain('The leading tone, of course.');
    expect(await body.innerText()).not.toContain('bar 6 is viio6');
    await page.getByRole('button', { name: 'B flat' }).click();
    expect(await body.innerText()).toContain(note);
    await page.getByRole('button', { name: 'C sharp' }).click();
    expect(await body.innerText()).not.toContain(note);
    expect(await body.innerText()).toContain('The leading tone, of course.');
    expect(await body.innerText()).toContain('bar 6 is viio6');
    await page.context().close();

    const other = await openPage(browser, address);
    const question = (await timelineOf(other.page)).events.find(event => event.kind === 'question');
    await other.page
      .getByRole('slider', { name: 'Place in the lesson' })
      .fill(String(Math.ceil(question?.start ?? 0) - 1));
    await playButton(other.page).click();
    await other.page.waitForSelector('.question.waiting');
    await other.page.getByRole('button', { name: 'Go on' }).click();
    await other.page.waitForFunction(() => document.querySelectorAll('.label').length > 0);
    expect(await other.page.locator('.step.current .step-body').innerText()).toContain(
      'The leading tone, of course.',
    );
    await other.page.context().close();
  });

  test('plays one example alone from where it stands', async () => {
    const { page } = await openPage(browser, address);
    await page.getByRole('button', { name: 'Next step' }).click();
    await page.getByRole('button', { name: 'Play bars 5–8' }).click();
    await page.waitForSelector('.sounding');
    expect(
      await page.locator('.sounding').evaluateAll(heads => heads.map(head => head.getAttribute('data-name'))),
    ).toEqual(['g', 'G,,']);
    await page.context().close();
  });

  test('ends at the end, and starts over from there', async () => {
    const { page } = await openPage(browser, address);
    const slider = page.getByRole('slider', { name: 'Place in the lesson' });
    await slider.fill(String(Number(await slider.getAttribute('max')) - 1));
    await playButton(page).click();
    await page.waitForFunction(() => document.querySelector('.transport-play')?.textContent === 'Play');
    await playButton(page).click();
    await page.waitForFunction(() => document.querySelector('.time')?.textContent.startsWith('0:01'));
    await page.context().close();
  });

  test('runs without sound where the browser has none, and says so', async () => {
    const context = await browser.newContext();
    const page = await context.newPage();
    await page.addInitScript(() => {
      Reflect.deleteProperty(globalThis, 'AudioContext');
    });
    await page.goto(address);
    await page.waitForSelector('html[data-ready]');
    expect(await page.locator('.notice').textContent()).toBe(
      'This browser has no sound; words and marks run all the same.',
    );
    await playButton(page).click();
    await page.waitForSelector('.sounding');
    await context.close();
  });
});

describe('the reason behind a claim', () => {
  test('opens at its mark, shows its notes in the score by shape, and closes again', async () => {
    const { page } = await openPage(browser, address);
    const mark = page.getByRole('button', { name: 'Why: bar 3 is V7 (holds)' });
    await mark.click();
    expect(await mark.getAttribute('aria-expanded')).toBe('true');
    const note = page.getByRole('note');
    expect(await note.textContent()).toContain('A, C♯, E and G sound above A in the bass.');
    expect(await note.locator('li').first().textContent()).toBe(
      'for it A2 (left hand, bar 3, beat 1): root of the chord',
    );
    expect(await page.locator('.evidence-mark.supports').count()).toBe(1);
    expect(await page.locator('.evidence-mark.set-aside').count()).toBe(6);
    await mark.click();
    expect(await note.count()).toBe(0);
    expect(await page.locator('.evidence-mark').count()).toBe(0);
    await page.context().close();
  });
});

describe('another version of the piece', () => {
  test('has its marks in the same places when it comes again', async () => {
    const made = await practiceLesson(await bundlePlayer(), { version: practiceWaltz });
    const [own, other] = made.scores;
    const note = own.analysis.score.notes.find(({ bar }) => bar === 10)?.id;
    if (other === undefined || note === undefined) throw new Error('no other version');
    const tone = { note, kind: 'suspension', figure: '4-3', accented: true, chromatic: false } as const;
    const segments = own.analysis.segments.map((segment, index) =>
      index === 10 ? { ...segment, nonChordTones: [tone] } : segment,
    );
    const steps = made.lesson.steps.map((step, index) =>
      index === 2 ? { ...step, show: ['numerals', 'non-chord tones'] as const } : step,
    );
    const address = writePage({
      ...made,
      lesson: { ...made.lesson, steps },
      scores: [own, { ...other, analysis: { ...other.analysis, segments } }],
    });
    const page = await browser.newPage();
    await page.goto(`${address}#step-3`);
    await page.waitForSelector('html[data-ready]');
    const mark = page.locator('.tone-mark');
    const visit = async (): Promise<number> => {
      await page.getByRole('button', { name: 'Next step' }).click();
      await page.getByRole('button', { name: 'Next step' }).click();
      await page.locator('.step.current .play-line').first().click();
      await mark.waitFor();
      const place = Number(await mark.getAttribute('x'));
      await page.getByRole('button', { name: 'Previous step' }).click();
      await page.getByRole('button', { name: 'Previous step' }).click();
      await page.getByRole('button', { name: 'Previous step' }).click();
      return place;
    };
    await page.getByRole('button', { name: 'Previous step' }).click();
    await page.getByRole('button', { name: 'Previous step' }).click();
    const first = await visit();
    expect(first).toBeGreaterThan(0);
    expect(await visit()).toBeCloseTo(first, 1);
    await page.close();
  });

  test('is shown while it plays, with its own notes marked, and the lesson comes back to its own score', async () => {
    const version = `X:1\nT:The Ferry by Night\nM:3/4\nL:1/4\nK:C\nV:1\nc2 d | e2 f |]\n`;
    const page = await browser.newPage();
    await page.goto(writePage(await practiceLesson(await bundlePlayer(), { version })));
    await page.waitForSelector('html[data-ready]');
    expect(await page.locator('.piece').textContent()).toBe("The Ferryman's Waltz");
    await page.getByRole('button', { name: /The other bank/ }).click();
    await page.getByRole('button', { name: 'Play bars 1–2' }).click();
    await page.waitForSelector('.sounding');
    expect(await page.locator('.piece').textContent()).toBe('The Ferry by Night');
    expect(
      await page
        .locator('.sounding:visible')
        .evaluateAll(heads => heads.map(head => head.getAttribute('data-name'))),
    ).toEqual(['c']);
    await page.getByRole('button', { name: /Four bars at the bank/ }).click();
    expect(await page.locator('.piece').textContent()).toBe("The Ferryman's Waltz");
    await page.close();
  });
});
