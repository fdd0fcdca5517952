/** Narration recorded in the workshop's window, in a browser whose microphone hears a file: what is on the disk, what is said, who can use it. */
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';
import { describe, expect, it, vi } from 'vitest';
import { readWav } from '../../../src/sound/index.js';
import type { Mono } from '../../../src/sound/index.js';
import { bench } from '../../workshop/bench.js';
import type { Bench } from '../../workshop/bench.js';
import { hearingWindows } from './hearing-window.js';
import type { HearingWindow, WindowOptions } from './hearing-window.js';
import { greatest, heardFile, lengthOf, shareAt } from './heard-tone.js';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const open = hearingWindows();
// A microphone hears in real time.
vi.setConfig({ testTimeout: 120_000 });
const soon = { timeout: 40_000 };

/** A tone of 440 Hz at -12 dBFS that is there half of the time. */
const tone = heardFile([
  { seconds: 0.5, amplitude: 0 },
  { seconds: 0.5, amplitude: 0.25 },
]);

const lesson = `format: 1
title: Narrated
score: mill-road.abc
home: B minor
steps:
  - title: The beginning
    bars: 1-2
    script:
      - say: Listen to the bass.
      - play: 1-2
      - say: It climbs.
    claims:
      - bar 1 is i
  - title: The end
    bars: 32
    script:
      - play: 32
      - say: We are home.
`;

interface Narrating extends HearingWindow {
  readonly on: Bench;
  readonly takes: string;
  readonly stage: ReturnType<Page['locator']>;
}

/** The pane over the lesson; without the three seconds of the count-in, unless a test is about them. */
async function narrating(
  { counted = false, ...options }: WindowOptions & { readonly counted?: boolean } = { heard: tone },
): Promise<Narrating> {
  const first = await bench();
  writeFileSync(first.lesson, lesson);
  const on = await first.again({ lesson: first.lesson });
  const { page, reports } = await open(on, options);
  await page.getByRole('button', { name: 'Narration' }).click();
  await page.waitForSelector('.texts button[aria-current]');
  await page.getByRole('checkbox', { name: 'count in' }).setChecked(counted);
  return { page, reports, on, takes: join(on.folder, 'takes'), stage: page.locator('.stage') };
}

const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });
const status = (page: Page, words: string) =>
  page.waitForFunction(
    text => document.querySelector('.stage .status')?.textContent?.includes(text) === true,
    words,
  );
/** Records for some seconds, what is counted in apart. */
async function record({ page }: Narrating, seconds: number, number: number): Promise<void> {
  await button(page, 'Record').click();
  await button(page, 'Stop').waitFor();
  await page.waitForTimeout(seconds * 1000);
  await button(page, 'Stop').click();
  await status(page, `Recording ${String(number)} is kept`);
}
const stateOf = (page: Page, id: string) =>
  page
    .locator('.texts button', { has: page.locator(`.id:text-is("${id}")`) })
    .locator('.state')
    .textContent();
const seconds = (words: string | null): number => Number(/([\d.]+) s/u.exec(words ?? '')?.[1]);
const fileOf = ({ takes }: Narrating, name: string): Mono => readWav(readFileSync(join(takes, name)));
describe('a recording', () => {
  it('holds what was played to the microphone, and gives text and walkthrough its length', async () => {
    const here = await narrating({ heard: tone, counted: true });
    const { page, reports, on } = here;
    const before = await page.locator('.narration-pane header .quiet').textContent();
    expect(before).toContain('0 of 3 texts recorded');
    await record(here, 2.5, 1);

    const file = fileOf(here, '1.1.wav');
    expect(lengthOf(file)).toBeGreaterThan(2);
    expect(await page.locator('.recordings li').textContent()).toContain(`${lengthOf(file).toFixed(1)} s`);
    expect(Math.abs(20 * Math.log10(greatest(file)) + 12)).toBeLessThan(1);
    expect(shareAt(440, file)).toBeGreaterThan(0.9);
    expect(shareAt(480, file)).toBeLessThan(0.1);

    // Without the silence at its ends, as a build takes it.
    const own = seconds(await stateOf(page, '1.1'));
    expect(own).toBeGreaterThan(1);
    expect(own).toBeLessThanOrEqual(lengthOf(file) + 0.05);
    expect(await page.locator('.narration-pane header .quiet').textContent()).toContain(
      '1 of 3 texts recorded',
    );
    const { parts } = await on.get('takes', { path: on.lesson, text: lesson });
    const [first, second] = parts;
    expect(first?.seconds.toFixed(1)).toBe(own.toFixed(1));
    // The page that is shown beside it has the second text where the take puts it.
    const start = async (): Promise<number> => {
      const address = (await page.locator('iframe').getAttribute('data-page')) ?? '';
      const html = Buffer.from(on.host.page(address.split('#')[0] ?? '') ?? []).toString('utf8');
      return Number(/"start":([\d.]+),"end":[\d.]+,"say":"1\.2"/u.exec(html)?.[1]);
    };
    // The page counts in samples of the mix, the list in those of the recording.
    await expect.poll(start, soon).toBeCloseTo(second?.start ?? NaN, 3);
    expect(reports).toEqual([]);
  });

  it('is retaken, the better one kept, and every step undone', async () => {
    const here = await narrating();
    const { page, takes } = here;
    await record(here, 1.5, 1);
    await record(here, 2.5, 2);
    const [first, second] = [1, 2].map(n =>
      readFileSync(join(takes, 'recordings', '1.1', `${String(n)}.wav`)),
    );
    const spoken = (): Buffer => readFileSync(join(takes, '1.1.wav'));
    expect(spoken()).toEqual(second);
    await button(page, 'Keep this one: recording 1').click();
    await status(page, 'Recording 1 speaks this text now.');
    expect(spoken()).toEqual(first);
    // The button that was pressed is gone; its row has the focus.
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toBe(
      'Listen to recording 1',
    );
    await button(page, 'Undo').click();
    await status(page, 'Undone.');
    expect(spoken()).toEqual(second);
    await button(page, 'Let the voice speak').click();
    await status(page, 'The voice speaks this text');
    expect(await stateOf(page, '1.1')).toBe('the voice');
    expect(existsSync(join(takes, '1.1.wav'))).toBe(false);
    await button(page, 'Undo').click();
    await status(page, 'Undone.');
    expect(spoken()).toEqual(second);
  });

  it('is cut with the arrow keys and by dragging, and its ends are found again', async () => {
    const here = await narrating();
    const { page } = here;
    await record(here, 2.5, 1);
    const whole = lengthOf(fileOf(here, '1.1.wav'));
    const begins = page.getByRole('slider', { name: 'Begins at' });
    const from = Number(await begins.inputValue());
    await begins.focus();
    // A range of hundredths of a second: ten presses of a key are a tenth.
    for (let n = 0; n < 10; n += 1) await page.keyboard.press('ArrowRight');
    await status(page, 'The ends are set.');
    await expect.poll(async () => Number(await begins.inputValue()), soon).toBeCloseTo(from + 0.1, 6);
    const ends = Number(await page.getByRole('slider', { name: 'Ends at' }).inputValue());
    await expect
      .poll(() => Math.abs(lengthOf(fileOf(here, '1.1.wav')) - (ends - from - 0.1)), soon)
      .toBeLessThan(0.02);

    const box = await page.locator('.waveform').boundingBox();
    if (box === null) throw new Error('there is no waveform');
    await page.mouse.move(box.x + box.width * 0.95, box.y + 20);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.5, box.y + 20, { steps: 4 });
    await page.mouse.up();
    const half = whole / 2 - from - 0.1;
    await expect.poll(() => Math.abs(lengthOf(fileOf(here, '1.1.wav')) - half), soon).toBeLessThan(0.05);
    await expect
      .poll(async () => Math.abs(seconds(await stateOf(page, '1.1')) - half), soon)
      .toBeLessThan(0.11);

    await button(page, 'Ends as found').click();
    await status(page, 'left out again');
    expect(lengthOf(fileOf(here, '1.1.wav'))).toBe(whole);
  });

  it('is stale when its words are changed, and says what was said', async () => {
    const here = await narrating();
    const { page } = here;
    await record(here, 1, 1);
    await page.locator('.cm-line', { hasText: 'Listen to the bass.' }).click();
    await page.keyboard.press('End');
    await page.keyboard.type(' Now');
    await page.waitForSelector('.stale-note details');
    await page.getByText('What was said').click();
    expect(await page.locator('.stale-note .said').textContent()).toBe('Listen to the bass.');
    expect(await stateOf(page, '1.1')).toMatch(/^stale, /u);
    expect(await page.locator('.narration-pane header .quiet').textContent()).toContain('1 stale');
  });

  it('follows its words when a text is written before it', async () => {
    const here = await narrating();
    const { page, takes, on } = here;
    await record(here, 1, 1);
    const spoken = readFileSync(join(takes, '1.1.wav'));
    writeFileSync(on.lesson, lesson.replace('script:\n', 'script:\n      - say: Good evening.\n'));
    await page.getByText('One take was made for words that stand elsewhere now.').waitFor();
    await button(page, 'Let them follow').click();
    await status(page, 'One take is with its words again.');
    expect(await stateOf(page, '1.1')).toBe('the voice');
    expect(await stateOf(page, '1.2')).toMatch(/^[\d.]+ s$/u);
    expect(readFileSync(join(takes, '1.2.wav'))).toEqual(spoken);
    expect(await page.locator('.strays').isHidden()).toBe(true);
  });

  it('goes from text to text by the keyboard alone', async () => {
    const here = await narrating();
    const { page, takes } = here;
    await button(page, 'Record').focus();
    for (const [index, id] of ['1.1', '1.2', '2.1'].entries()) {
      expect(await page.locator('.texts [aria-current] .id').textContent()).toBe(id);
      await page.keyboard.press('Enter');
      await button(page, 'Stop').waitFor();
      await page.waitForTimeout(700);
      await page.keyboard.press('Enter');
      await status(page, `speaks ${id} now.`);
      if (index === 2) break;
      await button(page, 'Next to record').focus();
      await page.keyboard.press('Enter');
    }
    expect(await button(page, 'Next to record').isDisabled()).toBe(true);
    for (const id of ['1.1', '1.2', '2.1']) expect(existsSync(join(takes, `${id}.wav`))).toBe(true);
    expect(await page.locator('.narration-pane header .quiet').textContent()).toContain(
      '3 of 3 texts recorded',
    );
  });

  it('can be heard, and left off before it begins', async () => {
    const here = await narrating({ heard: tone, counted: true });
    const { page, takes } = here;
    await button(page, 'Record').click();
    await button(page, 'Leave it').click();
    await button(page, 'Record').waitFor();
    expect(existsSync(takes)).toBe(false);
    await record(here, 2, 1);
    await button(page, 'Listen').click();
    await button(page, 'Stop listening').waitFor();
    await page.waitForSelector('.heard.is-heard', { state: 'attached' });
    await button(page, 'Stop listening').click();
    await button(page, 'Listen').waitFor();
  });
});

describe('what is said of a recording', () => {
  it.each([
    [
      'clipped',
      // Twice as strong as fits.
      [
        { seconds: 0.4, amplitude: 2 },
        { seconds: 0.4, amplitude: 0 },
      ],
      /^Clipped \d+ times, first at/u,
    ],
    [
      'soft',
      [
        { seconds: 0.4, amplitude: 0.02 },
        { seconds: 0.4, amplitude: 0 },
      ],
      /^It is soft/u,
    ],
    // The tone never pauses: nothing tells words from the room.
    [
      'noisy',
      [
        { seconds: 0.4, amplitude: 0.25 },
        { seconds: 0.4, amplitude: 0.02 },
      ],
      /^The room is only/u,
    ],
    ['silent', [{ seconds: 0.4, amplitude: 0.0005 }], /^Nothing is heard/u],
  ] as const)('%s', async (kind, stretches, words) => {
    // While a microphone wakes it hears nothing, not even the room: that is over when it has been counted in.
    const here = await narrating({ heard: heardFile(stretches), counted: kind === 'noisy' });
    await record(here, 1.5, 1);
    await here.page.waitForSelector(`.remarks .is-${kind}`);
    expect(await here.page.locator('.remarks li').allTextContents()).toEqual([expect.stringMatching(words)]);
    expect((await here.page.locator('.waveform .over').count()) > 0).toBe(kind === 'clipped');
  });

  it('is nothing where it is as it should be; the level is shown meanwhile', async () => {
    const here = await narrating();
    await record(here, 1.5, 1);
    expect(await here.page.locator('.remarks li').count()).toBe(0);
    const level = here.page.getByRole('meter', { name: 'Level' });
    await expect.poll(() => level.getAttribute('aria-valuetext'), soon).toMatch(/^−1[2-6] dBFS, good$/u);
  });
});

describe('where something fails', () => {
  it.each([
    [
      'is refused',
      ['--use-fake-device-for-media-stream', '--use-fake-ui-for-media-stream=deny'],
      'The microphone was refused. Allow it for this page in the browser, or for Barwise in the settings of the system, and try again.',
    ],
    [
      'is not there',
      ['--use-fake-ui-for-media-stream'],
      'There is no microphone. Plug one in and try again.',
    ],
  ])('a microphone that %s is told in words', async (_, flags, words) => {
    const { page } = await narrating({ flags });
    await button(page, 'Record').click();
    await page.getByText(words).waitFor();
    expect(await button(page, 'Record').isEnabled()).toBe(true);
  });

  it('a recording that cannot be written stays until it is', async () => {
    const here = await narrating();
    const { page, takes } = here;
    writeFileSync(takes, 'a file in the way');
    await button(page, 'Record').click();
    await button(page, 'Stop').waitFor();
    await page.waitForTimeout(800);
    await button(page, 'Stop').click();
    await page.getByText('the recording was not kept: a file stands where a folder is needed').waitFor();
    expect(await button(page, 'Record').isDisabled()).toBe(true);
    rmSync(takes);
    await button(page, 'Keep it again').click();
    await status(page, 'Recording 1 is kept');
    expect(lengthOf(fileOf(here, '1.1.wav'))).toBeGreaterThan(0.6);
  });

  it('a window that dies while it records leaves every finished take, and what was recorded until then', async () => {
    const here = await narrating();
    const { page, takes, on } = here;
    await record(here, 1, 1);
    const finished = readFileSync(join(takes, '1.1.wav'));
    await button(page, 'Record').click();
    await button(page, 'Stop').waitFor();
    await page.waitForTimeout(3500);
    await page.context().browser()?.close();
    expect(readFileSync(join(takes, '1.1.wav'))).toEqual(finished);

    const { page: later } = await open(await on.again({ lesson: on.lesson }), { heard: tone });
    const dialog = later.getByRole('dialog', { name: 'A recording was cut off' });
    await dialog.waitFor();
    expect(await dialog.textContent()).toMatch(/ [23]\.\d s of 1\.1 were recorded: “Listen to the bass\.”/u);
    await dialog.getByRole('button', { name: 'Keep it as a take' }).click();
    await later.locator('.notice', { hasText: 'Recording 2 is kept and speaks 1.1 now' }).waitFor();
    const kept = fileOf(here, '1.1.wav');
    expect(lengthOf(kept)).toBeGreaterThan(2);
    expect(shareAt(440, kept)).toBeGreaterThan(0.9);
    const { parts } = await on.get('takes', { path: on.lesson, text: lesson });
    expect(parts[0]?.recordings.map(({ number }) => number)).toEqual([1, 2]);
  });

  it('a recording that was cut off is asked about again where the question is left, and not where it is dropped', async () => {
    const first = await bench();
    writeFileSync(first.lesson, lesson);
    const tape = 'a'.repeat(32);
    const pcm = new Uint8Array(16_000);
    const label = { path: first.lesson, tape, id: '1.1', words: 'Listen to the bass.', sampleRate: 8000 };
    await first.get('tape', { ...label, at: 0, pcm });
    const asks = async (): Promise<ReturnType<Page['locator']>> => {
      const { page } = await open(await first.again({ lesson: first.lesson }));
      const dialog = page.getByRole('dialog', { name: 'A recording was cut off' });
      await dialog.waitFor();
      return dialog;
    };
    await (await asks()).press('Escape');
    await (await asks()).getByRole('button', { name: 'Drop it' }).click();
    await expect
      .poll(async () => (await first.get('cutOff', { path: first.lesson })).tapes, soon)
      .toEqual([]);
  });

  it('a recording that cannot be written down meanwhile says so, and is kept when it ends', async () => {
    const here = await narrating();
    const { page, on } = here;
    writeFileSync(join(on.state, 'tapes'), 'a file in the way');
    await button(page, 'Record').click();
    await page.getByText('the recording cannot be written down while it is made').waitFor();
    await button(page, 'Stop').click();
    await status(page, 'Recording 1 is kept');
    expect(lengthOf(fileOf(here, '1.1.wav'))).toBeGreaterThan(0.7);
  });

  it('a microphone that is pulled out leaves what it heard until then', async () => {
    const here = await narrating();
    const { page } = here;
    await page.evaluate(() => {
      const { mediaDevices } = navigator;
      const ask = mediaDevices.getUserMedia.bind(mediaDevices);
      mediaDevices.getUserMedia = async wanted => {
        const stream = await ask(wanted);
        // Chromium tells so when the device has gone (Media Capture and Streams, 4.3.1).
        Reflect.set(globalThis, 'pullOut', () =>
          stream.getAudioTracks()[0]?.dispatchEvent(new Event('ended')),
        );
        return stream;
      };
    });
    await button(page, 'Record').click();
    await button(page, 'Stop').waitFor();
    await page.waitForTimeout(1000);
    await page.evaluate(() => {
      (Reflect.get(globalThis, 'pullOut') as () => void)();
    });
    await status(page, 'The microphone has gone; what it heard until then is kept.');
    expect(lengthOf(fileOf(here, '1.1.wav'))).toBeGreaterThan(0.7);
    await button(page, 'Open the microphone').waitFor();
  });
});

describe('the pane', () => {
  const violations = async (page: Page): Promise<readonly string[]> => {
    await page.evaluate(axe);
    return page.evaluate(async () => {
      const { axe: runner } = globalThis as unknown as {
        axe: { run: (root: Document, options: object) => Promise<AxeResults> };
      };
      const found = await runner.run(document, { iframes: false });
      return found.violations.flatMap(({ id, nodes }) =>
        nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`),
      );
    });
  };

  it.each(['light', 'dark'] as const)('is free of violations that axe-core finds, %s', async colorScheme => {
    // What clips is remarked on, so that the remark is looked at as well.
    const clipped = heardFile([{ seconds: 0.5, amplitude: 2 }]);
    const here = await narrating({ heard: clipped, look: { colorScheme } });
    const { page } = here;
    expect(await violations(page)).toEqual([]);
    await button(page, 'Record').click();
    await button(page, 'Stop').waitFor();
    expect(await violations(page)).toEqual([]);
    await button(page, 'Stop').click();
    await page.waitForSelector('.remarks .is-clipped');
    expect(await violations(page)).toEqual([]);
  });

  it('covers the score, which cannot be reached meanwhile, and gives it back', async () => {
    const { page } = await narrating();
    expect(await page.locator('.score-pane').getAttribute('inert')).toBe('');
    await button(page, 'Narration').click();
    expect(await page.locator('.narration-pane').isHidden()).toBe(true);
    expect(await page.locator('.score-pane').getAttribute('inert')).toBeNull();
  });
});
