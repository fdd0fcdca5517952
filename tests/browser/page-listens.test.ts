import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { paced } from '../../src/player/pace.js';
import { passagesBetween } from '../../src/player/sound/passages.js';
import type { PageData } from '../../src/timeline/index.js';
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

const timeShown = async (page: Page): Promise<string> => (await page.locator('.time').textContent()) ?? '';
const soundingNames = (page: Page) =>
  page.locator('.sounding').evaluateAll(heads => heads.map(head => head.getAttribute('data-name')));

/** Writes down each change of what sounds, with its time in milliseconds. */
const watch = (page: Page) =>
  page.evaluate(() => {
    const seen: { names: string; at: number }[] = [];
    Object.assign(globalThis, { seen });
    new MutationObserver(() => {
      const names = [...document.querySelectorAll('.sounding')]
        .map(head => head.getAttribute('data-name'))
        .join(' ');
      if (names !== '' && seen.at(-1)?.names !== names) seen.push({ names, at: performance.now() });
    }).observe(document, { subtree: true, attributes: true, attributeFilter: ['class'] });
  });
const seen = (page: Page) =>
  page.evaluate(() => (globalThis as unknown as { seen: { names: string; at: number }[] }).seen);

async function lookAtBars(page: Page, from: string, to: string): Promise<void> {
  await page.getByRole('button', { name: 'Look closer' }).click();
  await page.getByRole('combobox', { name: 'From bar' }).selectOption({ label: from });
  await page.getByRole('combobox', { name: 'To bar' }).selectOption({ label: to });
}

describe('tempo', () => {
  test.each([
    [50, 2],
    [150, 2 / 3],
  ])(
    'at %i per cent the beat lasts %f times as long, while playing and from the start',
    async (tempo, factor) => {
      const { page } = await openPage(browser, address);
      await page.getByText('Tempo', { exact: false }).first().click();
      await page.getByLabel('Tempo of the music').fill(String(tempo));
      expect(await page.locator('.pull-up summary').first().textContent()).toBe(`Tempo ${tempo} %`);
      await page.keyboard.press('Escape');
      await watch(page);
      await page.getByRole('button', { name: 'Play the pickup and bars 1–4' }).click();
      await page.waitForFunction(() => (globalThis as unknown as { seen: unknown[] }).seen.length >= 4);
      const [pickup, first, , third] = await seen(page);
      // A quarter at 80 a minute is 0.75 s: the pickup, then beats 1 to 3 of bar 1.
      const quarter = 750 * factor;
      expect(Math.abs((first?.at ?? 0) - (pickup?.at ?? 0) - quarter)).toBeLessThan(60);
      expect(Math.abs((third?.at ?? 0) - (first?.at ?? 0) - 2 * quarter)).toBeLessThan(60);
      await page.context().close();
    },
  );

  test('a change while it plays goes on at the same place', async () => {
    const { page } = await openPage(browser, address);
    await page.getByRole('slider', { name: 'Place in the lesson' }).fill('5');
    await page.getByRole('button', { name: 'Play', exact: true }).click();
    await page.waitForSelector('.sounding');
    for (let press = 0; press < 10; press++) await page.keyboard.press(',');
    expect(await page.locator('.pull-up summary').first().textContent()).toBe('Tempo 50 %');
    await page.waitForSelector('.sounding');
    expect(await timeShown(page)).toMatch(/^0:0[56] /);
    expect(await page.getByRole('status').textContent()).toBe('Tempo 50 per cent');
    await page.context().close();
  });

  test('words at another pace are followed in step', async () => {
    const { page, reports } = await openPage(browser, address);
    await page.getByText('Tempo', { exact: false }).first().click();
    await page.getByLabel('Pace of the words').fill('60');
    await page.keyboard.press('Escape');
    await page.evaluate(() => {
      const words: { word: string; at: number }[] = [];
      Object.assign(globalThis, { words });
      new MutationObserver(() => {
        const word = document.querySelector('.word.spoken')?.textContent;
        if (word !== undefined && words.at(-1)?.word !== word) words.push({ word, at: performance.now() });
      }).observe(document, { subtree: true, attributes: true, attributeFilter: ['class'] });
    });
    // Pressing a word plays from there.
    await page.locator('.word', { hasText: 'Four' }).first().click();
    await page.waitForFunction(() => (globalThis as unknown as { words: unknown[] }).words.length >= 6);
    const words = await page.evaluate(
      () => (globalThis as unknown as { words: { word: string; at: number }[] }).words,
    );
    expect(words.slice(0, 6).map(({ word }) => word)).toEqual(['Four', 'bars,', 'and', 'all', 'of', 'them']);
    // The practice lesson speaks a word every 0.35 s.
    const four = (words[5]?.at ?? 0) - (words[1]?.at ?? 0);
    expect(Math.abs(four - (4 * 350) / 0.6)).toBeLessThan(80);
    expect(reports).toEqual([]);
    await page.context().close();
  });
});

describe('a jump into held notes', () => {
  /** `D,`, as the engraver names the D below middle C; the notes here have no accidentals. */
  const engraved = (pitch: string): string => {
    const octave = Number(pitch.slice(1));
    return octave >= 5 ? pitch.charAt(0).toLowerCase() : pitch.charAt(0) + ','.repeat(4 - octave);
  };

  // Enough is left of the notes to strike them again (more than 0.15 s), and little enough to miss them.
  test.each([50, 100, 150])('marks what is struck there, at %i per cent', async tempo => {
    const { page } = await openPage(browser, address);
    await page.getByText('Tempo', { exact: false }).first().click();
    await page.getByLabel('Tempo of the music').fill(String(tempo));
    await page.keyboard.press('Escape');
    const lesson = await timelineOf(page);
    const { timeline, toLesson } = paced(lesson, { music: tempo / 100, speech: 1 });
    const scores = await page.locator('#page-data').textContent();
    const { notes = [] } = (JSON.parse(scores ?? '') as PageData).scores[0] ?? {};
    const events = timeline.events.filter(event => event.kind === 'note');
    // The first two beats of bar 1: the D in the bass ends under the D above.
    for (const held of events.slice(1, 3)) {
      const from = held.end - 0.165;
      const [passage] = passagesBetween(timeline, from, timeline.seconds);
      const struck = (passage?.notes ?? []).filter(({ start }) => start === from);
      const names = events
        .filter(({ start, end }) => start < from && end > from)
        .flatMap(event => event.notes.map(id => engraved(notes[id]?.pitch ?? '')));
      expect(struck.length).toBe(names.length);
      await page.getByRole('slider', { name: 'Place in the lesson' }).evaluate((slider, at) => {
        if (!(slider instanceof HTMLInputElement)) return;
        slider.step = 'any';
        slider.value = String(at);
        slider.dispatchEvent(new Event('input'));
      }, toLesson(from));
      // Watched from before the first note, which a slow machine has played by the time the press is answered.
      await watch(page);
      await page.getByRole('button', { name: 'Play', exact: true }).click();
      await page.waitForFunction(() => (globalThis as unknown as { seen: unknown[] }).seen.length >= 2);
      await page.getByRole('button', { name: 'Pause' }).click();
      const [first, next] = await seen(page);
      expect(first?.names.split(' ').sort()).toEqual([...names].sort());
      expect((next?.at ?? 0) - (first?.at ?? 0)).toBeGreaterThan(50);
    }
    await page.context().close();
  });
});

describe('volume', () => {
  test('music and speech are each as loud as they are set', async () => {
    const context = await browser.newContext();
    const page = await context.newPage();
    await page.addInitScript(() => {
      const taps: AnalyserNode[] = [];
      const connect = AudioNode.prototype.connect as (...args: unknown[]) => unknown;
      AudioNode.prototype.connect = function (this: AudioNode, ...args: unknown[]): AudioNode {
        if (args[0] instanceof AudioDestinationNode) {
          const tap = new AnalyserNode(this.context, { fftSize: 2048 });
          connect.call(this, tap);
          taps.push(tap);
        }
        return connect.apply(this, args) as AudioNode;
      } as typeof connect as AudioNode['connect'];
      // The loudest sample that reaches the loudspeakers in half a second.
      Object.assign(globalThis, {
        loudest: async () => {
          let loudest = 0;
          const end = performance.now() + 500;
          while (performance.now() < end) {
            for (const tap of taps) {
              const samples = new Float32Array(tap.fftSize);
              tap.getFloatTimeDomainData(samples);
              for (const sample of samples) loudest = Math.max(loudest, Math.abs(sample));
            }
            await new Promise(requestAnimationFrame);
          }
          return loudest;
        },
      });
    });
    await page.goto(address);
    await page.waitForSelector('html[data-ready]');
    const loudest = () =>
      page.evaluate(() => (globalThis as unknown as { loudest: () => Promise<number> }).loudest());
    const set = async (music: number, speech: number) => {
      await page.locator('.pull-up summary').first().click();
      await page.getByRole('slider', { name: 'Music', exact: true }).fill(String(music));
      await page.getByLabel('Speech').fill(String(speech));
      await page.keyboard.press('Escape');
      // A change is a short fade.
      await page.waitForTimeout(300);
    };
    const { events } = await timelineOf(page);
    const playFrom = async (kind: string) => {
      const start = events.find(event => event.kind === kind)?.start ?? 0;
      await page.getByRole('slider', { name: 'Place in the lesson' }).fill(String(Math.ceil(start)));
      if ((await page.locator('.transport-play').textContent()) === 'Play')
        await page.locator('.transport-play').click();
      await page.waitForSelector(kind === 'speech' ? '.word.spoken' : '.sounding');
    };
    await playFrom('passage');
    expect(await loudest()).toBeGreaterThan(0.005);
    await set(0, 100);
    expect(await loudest()).toBeLessThan(0.0005);
    await playFrom('speech');
    expect(await loudest()).toBeGreaterThan(0.005);
    await set(100, 0);
    await playFrom('speech');
    expect(await loudest()).toBeLessThan(0.0005);
    await context.close();
  });
});

describe('a part by itself', () => {
  test('one example ends with its last note, and the lesson rests there', async () => {
    const { page } = await openPage(browser, address);
    for (let press = 0; press < 10; press++) await page.keyboard.press('.');
    const end = (await timelineOf(page)).events.find(({ kind }) => kind === 'passage')?.end ?? 0;
    await page.getByRole('button', { name: 'Play the pickup and bars 1–4' }).click();
    await page.waitForSelector('.sounding');
    await page.waitForFunction(() => document.querySelector('.transport-play')?.textContent === 'Play');
    const shown = (await timeShown(page)).split(' / ')[0]?.split(':').map(Number) ?? [];
    expect((shown[0] ?? 0) * 60 + (shown[1] ?? 0)).toBe(Math.round(Math.floor(end)));
    await page.context().close();
  });

  test('bars go round until they are stopped, and the lesson stays where it was', async () => {
    const { page, reports } = await openPage(browser, address);
    await page.getByRole('button', { name: 'Next step' }).click();
    const before = await timeShown(page);
    for (let press = 0; press < 10; press++) await page.keyboard.press('.');
    await lookAtBars(page, '2', '2');
    await watch(page);
    await page.getByRole('button', { name: 'Repeat' }).click();
    await page.waitForFunction(() => (globalThis as unknown as { seen: unknown[] }).seen.length >= 7);
    const names = (await seen(page)).map(one => one.names);
    // Three quarters, then from the start again without a rest between.
    expect(names[0]).toBe('f D,');
    expect(names[3]).toBe('f D,');
    expect(names[6]).toBe('f D,');
    const times = (await seen(page)).map(({ at }) => at);
    expect(Math.abs((times[3] ?? 0) - (times[0] ?? 0) - 1500)).toBeLessThan(60);
    await page.getByRole('button', { name: 'Stop' }).click();
    expect(await page.locator('.transport-play').textContent()).toBe('Play');
    expect(await page.getByRole('button', { name: 'Repeat' }).getAttribute('aria-pressed')).toBe('false');
    expect(await timeShown(page)).toBe(before);
    expect(reports).toEqual([]);
    await page.context().close();
  });

  test('the notes of any bar can be stacked', async () => {
    const { page } = await openPage(browser, address);
    await lookAtBars(page, '7', '7');
    await page.getByRole('button', { name: 'Stack' }).click();
    await page.waitForSelector('.bar-now rect');
    expect(await page.locator('.transport-play').textContent()).toBe('Pause');
    await page.waitForFunction(() => document.querySelector('.transport-play')?.textContent === 'Play');
    expect(await timeShown(page)).toMatch(/^0:00 /);
    await page.context().close();
  });
});

describe('pointing at the score', () => {
  test('a note sounds and is told with its place, its part in the chord and its degree', async () => {
    const { page, reports } = await openPage(browser, address);
    const head = await page.locator('[data-name="^c"]').first().boundingBox();
    await page.mouse.click((head?.x ?? 0) + (head?.width ?? 0) / 2, (head?.y ?? 0) + (head?.height ?? 0) / 2);
    expect(await page.locator('.closer-words').textContent()).toBe(
      'C sharp 5, quarter note, staff 1, bar 3, beat 3: third of A7; degree 7 of D minor, the leading tone.',
    );
    await page.waitForSelector('.sounding');
    expect(await soundingNames(page)).toEqual(['^c']);
    expect(await page.locator('.chosen path').count()).toBe(1);
    expect(reports).toEqual([]);
    await page.context().close();
  });

  test('what labels hide is not told either', async () => {
    const { page } = await openPage(browser, address);
    await page.keyboard.press('l');
    const head = await page.locator('[data-name="^c"]').first().boundingBox();
    await page.mouse.click((head?.x ?? 0) + (head?.width ?? 0) / 2, (head?.y ?? 0) + (head?.height ?? 0) / 2);
    expect(await page.locator('.closer-words').textContent()).toBe(
      'C sharp 5, quarter note, staff 1, bar 3, beat 3.Its part in the harmony is covered, like the labels.',
    );
    await page.context().close();
  });

  test('a bar sounds and is told beat by beat', async () => {
    const { page } = await openPage(browser, address);
    const [left, right] = [
      await page.locator('[data-name="f"]').first().boundingBox(),
      await page.locator('[data-name="d"]').nth(1).boundingBox(),
    ];
    await page.mouse.click(((left?.x ?? 0) + (right?.x ?? 0)) / 2, (left?.y ?? 0) + 55);
    expect(await page.locator('.closer-head').textContent()).toBe('Bar 2');
    expect(await page.locator('.closer-words').textContent()).toContain(
      'Beat 1. staff 1: F 5; staff 2: D 3. Beat 2. staff 2: A 3, D 4.',
    );
    await page.waitForSelector('.bar-now rect');
    await page.context().close();
  });
});

describe('labels', () => {
  test('are covered and uncovered one at a time, by key, button and pointer', async () => {
    const { page } = await openPage(browser, address);
    await page.getByText('Options').click();
    await page.getByLabel('Cover labels, uncover one by one').check();
    await page.keyboard.press('Escape');
    expect(await page.locator('.cover').count()).toBe(5);
    expect(await page.locator('.label').count()).toBe(0);
    await page.keyboard.press('u');
    await page.keyboard.press('u');
    expect(await page.locator('.label-numerals').allTextContents()).toEqual(['i', 'i']);
    expect(await page.getByRole('status').textContent()).toBe('i, Dm, in D minor');
    await page.getByRole('button', { name: 'Uncover next' }).click();
    await page.locator('.cover').first().click();
    expect(await page.locator('.label-numerals').allTextContents()).toEqual(['i', 'i', 'i', 'V7']);
    expect(await page.locator('.cover').count()).toBe(1);
    await page.keyboard.press('u');
    await page.getByRole('button', { name: 'Cover again' }).click();
    expect(await page.locator('.cover').count()).toBe(5);
    await page.context().close();
  });

  test('of the reader’s own choice are shown in every step', async () => {
    const { page } = await openPage(browser, address);
    await page.getByText('Options').click();
    await page.getByLabel('Functions').check();
    await page.getByLabel('Numerals').uncheck();
    await page.keyboard.press('Escape');
    expect(await page.locator('.label-functions').allTextContents()).toEqual(['T', 'T', 'T', 'D', 'T']);
    expect(await page.locator('.label-chords').count()).toBe(5);
    expect(await page.locator('.label-numerals').count()).toBe(0);
    await page.context().close();
  });
});

describe('progress', () => {
  test('the open step and the steps heard are there again after the page was closed', async () => {
    const { page } = await openPage(browser, address);
    for (let press = 0; press < 10; press++) await page.keyboard.press('.');
    const end = (await timelineOf(page)).steps[0]?.end ?? 0;
    await page.getByRole('slider', { name: 'Place in the lesson' }).fill(String(Math.floor(end) - 1));
    await page.getByRole('button', { name: 'Play', exact: true }).click();
    await page.waitForFunction(() => document.querySelector('.step.heard') !== null);
    await page.getByRole('button', { name: /The other bank/ }).click();
    await page.reload();
    await page.waitForSelector('html[data-ready]');
    expect(await page.locator('[aria-current=step] .step-title').textContent()).toBe(
      'Step 3: The other bank',
    );
    expect(await page.locator('.step.heard').count()).toBe(1);
    expect(await page.locator('.step').first().locator('button').first().textContent()).toContain(', heard');
    await page.context().close();
  });
});
