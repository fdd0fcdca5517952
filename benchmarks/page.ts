/**
 * Measures the walkthrough page in a real browser and prints a table: `npx tsx benchmarks/page.ts [PAGE.html]`. Without a page the
 * sample lesson is built first. Size with and without speech, time until it can be used, marks against the sound that is heard (straight
 * after jumps at three tempi), long tasks while it plays, also on a score of 100 bars.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'vite';
import { paced } from '../src/player/pace.js';
import type { PageData, Timeline } from '../src/timeline/index.js';
import { launchBrowser } from '../tests/browser/launch.js';
import { listenIn, type Heard } from './page-listener.js';
import { onsetNear } from './page-onsets.js';

/** Percentages of the lesson's tempo, how often each is jumped into, and how long it then plays: a minute each, three in all. */
const tempos = [50, 100, 150];
const jumps = 20;
const secondsEach = 3;

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

/** How late (positive) or early each mark is seen against its note, in milliseconds; notes whose beginning cannot be told by ear are left out. */
function markOffsets(heard: Heard, timeline: Timeline, from: number, until: number): readonly number[] {
  const notes = timeline.events.filter(event => event.kind === 'note');
  const onsets = [...new Set(notes.flatMap(({ start }) => (start >= from && start < until ? [start] : [])))];
  // A note that is held over the jump is struck again there.
  const held = notes.some(({ start, end }) => start < from && end > from + 0.15);
  const first = held ? from : onsets[0];
  const loudest = heard.samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  const firstSample = heard.samples.findIndex(sample => Math.abs(sample) > loudest / 200);
  if (first === undefined || firstSample < 0) return [];
  const begin = firstSample / heard.sampleRate - first;
  return onsets.flatMap(onset => {
    const heardOnset = onsetNear(heard.samples, heard.sampleRate, onset + begin);
    if (heardOnset === undefined) return [];
    const soundAt = heard.heardAt(heardOnset);
    const mark = heard.marks.reduce(
      (nearest, seen) => (Math.abs(seen - soundAt) < Math.abs(nearest - soundAt) ? seen : nearest),
      Infinity,
    );
    return [mark - soundAt];
  });
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
  return `X:1\nT:A hundred bars\nM:4/4\nL:1/8\nQ:1/4=120\n%%score {R L}\nV:R clef=treble\nV:L clef=bass\nK:C\n[V:R] ${bars(right)} |]\n[V:L] ${bars(left)} |]\n`;
}

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
const data = JSON.parse(/id="page-data">(.*?)<\/script>/s.exec(html)?.[1] ?? '{}') as PageData;
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
const chance = randomShares(1);
const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
const listener = await listenIn(page);
await page.goto(address);
await page.waitForSelector('html[data-ready]');
const tempoPanel = page.locator('.pull-up summary').first();

/** Sets the tempo, and mutes the speech, which would hide the first note of some passages. */
async function setTempo(tempo: number): Promise<void> {
  await tempoPanel.click();
  await page.getByLabel('Tempo of the music').fill(String(tempo));
  await page.getByLabel('Speech').fill('0');
  await page.keyboard.press('Escape');
}

for (const tempo of tempos) {
  await setTempo(tempo);
  const { timeline, toClock } = paced(data.timeline, { music: tempo / 100, speech: 1 });
  const offsets: number[] = [];
  let longTasks: readonly number[] = [];
  for (let jump = 0; jump < jumps; jump++) {
    const passage = passages[Math.floor(chance.next().value * passages.length)];
    if (passage === undefined) break;
    // The slider jumps by whole seconds.
    const room = passage.end - passage.start - 3;
    const second = Math.ceil(passage.start + chance.next().value * Math.max(0, room));
    const [from, end] = [toClock(second), toClock(passage.end)];
    const until = Math.min(end, from + secondsEach);
    await page.getByRole('slider', { name: 'Place in the lesson' }).fill(String(second));
    const heard = await listener.play(until - from);
    offsets.push(...markOffsets(heard, timeline, from, until));
    longTasks = [...longTasks, ...heard.longTasks];
  }
  const sizes = offsets.map(Math.abs);
  print(
    `mark against sound at ${tempo} %`,
    `median ${quantile(offsets, 0.5).toFixed(0)} ms, 95 % within ${quantile(sizes, 0.95).toFixed(0)} ms, none over ${Math.max(...sizes).toFixed(0)} ms (${sizes.length} onsets, ${jumps} jumps)`,
  );
  print(`long tasks while playing at ${tempo} %`, toldTasks(longTasks));
}
await page.close();

const long = await browser.newPage({ viewport: { width: 1280, height: 800 } });
const longListener = await listenIn(long);
await long.goto(pathToFileURL(buildHundredBars()).href);
await long.waitForSelector('html[data-ready]');
const usableLong = await long.evaluate(() => performance.getEntriesByName('usable')[0]?.startTime ?? NaN);
print('100 bars: usable after opening', `${usableLong.toFixed(0)} ms`);
print('100 bars: long tasks in 30 s of playing', toldTasks((await longListener.play(30)).longTasks));
await browser.close();
