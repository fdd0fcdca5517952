/**
 * Measures the walkthrough page in a real browser and prints a table: `npx tsx benchmarks/page.ts [PAGE.html]`; takes a quarter of an
 * hour. Without a page the sample lesson is built first. Size with and without speech, time until it can be used, marks against the sound that
 * is heard and long tasks: straight after jumps, and over three minutes without a break on a score of 100 bars, at three tempi each. For the
 * marks the instrument is one of clicks (page-clicks.ts).
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Page } from 'playwright-core';
import { build } from 'vite';
import { paced } from '../src/player/pace.js';
import type { PageData, Timeline } from '../src/timeline/index.js';
import { launchBrowser } from '../tests/browser/launch.js';
import { ownTemporaryFolder } from '../tests/temporary-folder.js';
import { clicksIn, withClicks } from './page-clicks.js';
import { listenIn, type Heard, type Listener } from './page-listener.js';

/** Percentages of the lesson's tempo, how often each is jumped into and how long it then plays, and how long it plays without a break. */
const tempos = [50, 100, 150];
const jumps = 20;
const secondsEach = 3;
const secondsUnbroken = 180;

process.on('exit', ownTemporaryFolder());

const print = (name: string, value: string): void => {
  process.stdout.write(`${name.padEnd(46)}${value}\n`);
};
const sorted = (values: readonly number[]): readonly number[] => [...values].sort((a, b) => a - b);
const toldTasks = (tasks: readonly number[]): string =>
  tasks.length === 0
    ? 'none over 50 ms'
    : `${tasks.length} over 50 ms, longest ${Math.max(...tasks).toFixed(0)} ms`;
const quantile = (values: readonly number[], share: number): number =>
  sorted(values)[Math.min(values.length - 1, Math.floor(values.length * share))] ?? NaN;

function buildLesson(lesson: string, folder: string): void {
  execFileSync(process.execPath, ['--import', 'tsx', 'src/cli/main.ts', 'build', lesson, '--out', folder], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
}

async function buildSample(): Promise<string> {
  await build({ logLevel: 'error' });
  const folder = mkdtempSync(join(tmpdir(), 'barwise-benchmark-'));
  buildLesson('sample-lessons/mill-road.yaml', folder);
  return join(folder, 'mill-road.html');
}

interface Offsets {
  /** How late (positive) or early the mark nearest to each click is seen, in milliseconds. */
  readonly milliseconds: readonly number[];
  /** Onsets that the schedule has in that time; as many clicks should be heard. */
  readonly expected: number;
  /** Clicks at which the schedule has no onset. */
  readonly strays: number;
}

/** A click belongs to an onset of the schedule that it is so near to, in seconds. */
const near = 0.02;

/** Where in a recording the schedule begins, so that most clicks fall on an onset: the first click may be missing or be none of these. */
function beginOf(clicks: readonly number[], onsets: readonly number[]): number {
  const isOnset = (at: number): boolean => onsets.some(onset => Math.abs(onset - at) < near);
  let best = { begin: 0, met: 0 };
  for (const click of clicks.slice(0, 4))
    for (const onset of onsets.slice(0, 4)) {
      const begin = click - onset;
      const met = clicks.filter(one => isOnset(one - begin)).length;
      if (met > best.met) best = { begin, met };
    }
  return best.begin;
}

/** Marks against what was heard from `from` to `until` on the clock of the paced `timeline`. */
function markOffsets(heard: Heard, timeline: Timeline, from: number, until: number): Offsets {
  const notes = timeline.events.filter(event => event.kind === 'note');
  // A note that is held over the jump is struck again there.
  const held = notes.some(({ start, end }) => start < from && end > from + 0.15);
  const starts = notes.map(({ start }) => start).filter(start => start >= from);
  const onsets = [...new Set(held ? [from, ...starts] : starts)].sort((a, b) => a - b);
  const clicks = clicksIn(heard.samples, heard.sampleRate);
  const begin = beginOf(clicks, onsets);
  const inTime = clicks.filter(click => click - begin < until - 0.005);
  const ofSchedule = inTime.filter(click => onsets.some(onset => Math.abs(click - begin - onset) < near));
  return {
    milliseconds: ofSchedule.map(click => {
      const soundAt = heard.heardAt(click);
      const mark = heard.marks.reduce(
        (nearest, seen) => (Math.abs(seen - soundAt) < Math.abs(nearest - soundAt) ? seen : nearest),
        Infinity,
      );
      return mark - soundAt;
    }),
    expected: onsets.filter(onset => onset < until - 0.005).length,
    strays: inTime.length - ofSchedule.length,
  };
}

function printOffsets(name: string, all: readonly Offsets[]): void {
  const offsets = all.flatMap(({ milliseconds }) => milliseconds);
  const sizes = offsets.map(Math.abs);
  const over = sizes.filter(size => size > 40).length;
  const sum = (of: 'expected' | 'strays'): number => all.reduce((total, one) => total + one[of], 0);
  print(
    `mark against sound, ${name}`,
    `median ${quantile(offsets, 0.5).toFixed(0)} ms, 95 % within ${quantile(sizes, 0.95).toFixed(0)} ms, worst ${Math.max(...sizes).toFixed(0)} ms, ${over} over 40 ms (${sizes.length} of ${sum('expected')} onsets heard, ${sum('strays')} strays)`,
  );
}

/** Numbers from 0 to 1 that are the same in every run (a linear congruential generator; Numerical Recipes, 2nd edition, section 7.1). */
function* randomShares(seed: number): Generator<number, never> {
  for (let state = seed; ;) {
    state = (state * 1664525 + 1013904223) % 2 ** 32;
    yield state / 2 ** 32;
  }
}

/** A piece of 100 bars for two hands in eighth notes, as text: longer than any lesson is about. */
function hundredBars(): string {
  const right = ["cdef gabc'", "c'bag fedc", 'egce gceg', 'afdf afdB'];
  const left = ['C,2G,2 E,2G,2', 'C,2A,2 F,2A,2', 'C,2G,2 E,2G,2', 'D,2A,2 F,2G,2'];
  const bars = (patterns: readonly string[]): string =>
    Array.from({ length: 100 }, (_, bar) => patterns[bar % patterns.length]).join(' | ');
  return `X:1\nT:A hundred bars\nM:4/4\nL:1/8\nQ:1/4=88\n%%score {R L}\nV:R clef=treble\nV:L clef=bass\nK:C\n[V:R] ${bars(right)} |]\n[V:L] ${bars(left)} |]\n`;
}

const pageData = (path: string): PageData =>
  JSON.parse(/id="page-data">(.*?)<\/script>/s.exec(readFileSync(path, 'utf8'))?.[1] ?? '{}') as PageData;

function buildHundredBars(): string {
  const folder = mkdtempSync(join(tmpdir(), 'barwise-benchmark-'));
  writeFileSync(join(folder, 'hundred.abc'), hundredBars());
  writeFileSync(
    join(folder, 'hundred.yaml'),
    'format: 1\ntitle: A hundred bars\nscore: hundred.abc\nhome: C major\nsteps:\n  - title: All of it\n    script:\n      - play: 1-100\n    show: [chords, numerals, keys, non-chord tones]\n',
  );
  buildLesson(join(folder, 'hundred.yaml'), folder);
  return join(folder, 'hundred.html');
}

const file = resolve(process.argv[2] ?? (await buildSample()));
const html = readFileSync(file, 'utf8');
const data = pageData(file);
const speech = [...html.matchAll(/id="clip-\d+">([^<]*)</g)].reduce(
  (sum, [, clip = '']) => sum + clip.length,
  0,
);
print(
  'page',
  `${(html.length / 1e6).toFixed(2)} MB, ${((html.length - speech) / 1e6).toFixed(2)} MB without speech`,
);

const browser = await launchBrowser();
const address = pathToFileURL(file).href;
const usable: number[] = [];
for (let run = 0; run < 7; run++) {
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  await page.goto(address);
  await page.waitForSelector('html[data-ready]');
  usable.push(await page.evaluate(() => performance.getEntriesByName('usable')[0]?.startTime ?? NaN));
  await page.close();
}
print(
  'usable after opening',
  `${quantile(usable, 0.5).toFixed(0)} ms (worst of ${usable.length}: ${Math.max(...usable).toFixed(0)} ms)`,
);

const passages = data.timeline.events.filter(
  event => event.kind === 'passage' && event.as === 'written' && !event.under && event.end - event.start > 4,
);

/** Opens a page that plays clicks and is listened to. */
async function openWithClicks(path: string): Promise<{ page: Page; listener: Listener }> {
  const clicking = join(mkdtempSync(join(tmpdir(), 'barwise-benchmark-')), 'clicks.html');
  writeFileSync(clicking, await withClicks(readFileSync(path, 'utf8')));
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  const listener = await listenIn(page);
  await page.goto(pathToFileURL(clicking).href);
  await page.waitForSelector('html[data-ready]');
  return { page, listener };
}

/** Sets the tempo, and mutes the speech. */
async function setTempo(page: Page, tempo: number): Promise<void> {
  await page.locator('.pull-up summary').first().click();
  await page.getByLabel('Tempo of the music').fill(String(tempo));
  await page.getByLabel('Speech').fill('0');
  await page.keyboard.press('Escape');
}

const seek = (page: Page, second: number): Promise<void> =>
  page.getByRole('slider', { name: 'Place in the lesson' }).fill(String(second));

const chance = randomShares(1);
const { page, listener } = await openWithClicks(file);
for (const tempo of tempos) {
  await setTempo(page, tempo);
  const { timeline, toClock } = paced(data.timeline, { music: tempo / 100, speech: 1 });
  const offsets: Offsets[] = [];
  const longTasks: number[] = [];
  for (let jump = 0; jump < jumps; jump++) {
    const passage = passages[Math.floor(chance.next().value * passages.length)];
    if (passage === undefined) break;
    // The slider jumps by whole seconds.
    const room = passage.end - passage.start - 3;
    const second = Math.ceil(passage.start + chance.next().value * Math.max(0, room));
    const [from, end] = [toClock(second), toClock(passage.end)];
    const until = Math.min(end, from + secondsEach);
    await seek(page, second);
    const heard = await listener.play(until - from);
    offsets.push(markOffsets(heard, timeline, from, until));
    longTasks.push(...heard.longTasks);
  }
  printOffsets(`${jumps} jumps at ${tempo} %`, offsets);
  print(`long tasks while playing at ${tempo} %`, toldTasks(longTasks));
}
await page.close();

const hundred = buildHundredBars();
const long = await openWithClicks(hundred);
const usableLong = await long.page.evaluate(
  () => performance.getEntriesByName('usable')[0]?.startTime ?? NaN,
);
print('100 bars: usable after opening', `${usableLong.toFixed(0)} ms`);
for (const tempo of tempos) {
  await setTempo(long.page, tempo);
  const { timeline } = paced(pageData(hundred).timeline, { music: tempo / 100, speech: 1 });
  await seek(long.page, 0);
  const until = Math.min(secondsUnbroken, timeline.seconds);
  const heard = await long.listener.play(until);
  printOffsets(`100 bars, ${until.toFixed(0)} s at ${tempo} %`, [markOffsets(heard, timeline, 0, until)]);
  print(`100 bars: long tasks at ${tempo} %`, toldTasks(heard.longTasks));
}
await browser.close();
