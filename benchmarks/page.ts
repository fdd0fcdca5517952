/**
 * Measures the walkthrough page in a real browser and prints a table: `npx tsx benchmarks/page.ts [PAGE.html]`. Without a page the
 * sample lesson is built first. Size with and without speech, time until it can be used, marks against the sound that is heard (straight
 * through and after jumps), long tasks while it plays.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'vite';
import type { PageData } from '../src/timeline/index.js';
import { launchBrowser } from '../tests/browser/launch.js';
import { listenIn, type Heard } from './page-listener.js';
import { onsetNear } from './page-onsets.js';

const print = (name: string, value: string): void => {
  process.stdout.write(`${name.padEnd(46)}${value}\n`);
};
const sorted = (values: readonly number[]): readonly number[] => [...values].sort((a, b) => a - b);
const quantile = (values: readonly number[], share: number): number =>
  sorted(values)[Math.min(values.length - 1, Math.floor(values.length * share))] ?? NaN;

async function buildSample(): Promise<string> {
  await build({ logLevel: 'error' });
  const folder = mkdtempSync(join(tmpdir(), 'barwise-benchmark-'));
  execFileSync(
    process.execPath,
    ['--import', 'tsx', 'src/cli/main.ts', 'build', 'sample-lessons/mill-road.yaml', '--out', folder],
    { stdio: ['ignore', 'ignore', 'inherit'] },
  );
  return join(folder, 'mill-road.html');
}

/** How late (positive) or early each mark is seen against its note, in milliseconds; notes whose beginning cannot be told by ear are left out. */
function markOffsets(heard: Heard, data: PageData, from: number, until: number): readonly number[] {
  const notes = data.timeline.events.filter(event => event.kind === 'note');
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
  event => event.kind === 'passage' && event.as === 'written' && !event.under,
);
const longest = passages.reduce((best, one) => (one.end - one.start > best.end - best.start ? one : best));
const starts = [longest, ...passages.filter(one => one !== longest).slice(0, 8)];
const offsets: number[] = [];
let longTasks: readonly number[] = [];
const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
const listener = await listenIn(page);
await page.goto(address);
await page.waitForSelector('html[data-ready]');
// Speech would hide the first note of some passages.
await page.getByText('Options').click();
await page.getByLabel('Speech').fill('0');
await page.getByText('Options').click();
for (const passage of starts) {
  // The slider jumps by whole seconds.
  const from = Math.floor(passage.start);
  const until = passage === longest ? passage.end : Math.min(passage.end, from + 8);
  await page.getByRole('slider', { name: 'Place in the lesson' }).fill(String(from));
  const heard = await listener.play(until - from);
  offsets.push(...markOffsets(heard, data, from, until));
  longTasks = [...longTasks, ...heard.longTasks];
}
await browser.close();
const sizes = offsets.map(Math.abs);
print(
  'mark against sound',
  `median ${quantile(offsets, 0.5).toFixed(0)} ms, 95 % within ${quantile(sizes, 0.95).toFixed(0)} ms, none over ${Math.max(...sizes).toFixed(0)} ms (${sizes.length} onsets, ${starts.length - 1} jumps)`,
);
print(
  'long tasks while playing',
  longTasks.length === 0
    ? 'none over 50 ms'
    : `${longTasks.length}, longest ${Math.max(...longTasks).toFixed(0)} ms`,
);
