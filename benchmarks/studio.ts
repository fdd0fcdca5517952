/**
 * Measures the workshop's window in a real browser, over the built program: `npm run bench:studio [-- --minutes 30]`. Start until it can be
 * used, a key until the new verdicts and the longest that a key waits (40 claims over 24 bars, 300 over 200; from the opening on over 500), and memory while a lesson is
 * played and edited for some minutes (2 where nothing is said).
 */
import { spawn } from 'node:child_process';
import type { ChildProcess } from 'node:child_process';
import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { launchBrowser } from '../tests/browser/launch.js';
import { ownTemporaryFolder } from '../tests/temporary-folder.js';
import { plainLesson, plainScore } from './studio-lessons.js';

const program = join(import.meta.dirname, '..', 'dist', 'cli', 'main.js');
process.on('exit', ownTemporaryFolder());
const folder = mkdtempSync(join(tmpdir(), 'barwise-studio-benchmark-'));
const minutes = Number(/--minutes[= ](\d+)/.exec(process.argv.slice(2).join(' '))?.[1] ?? 2);

const print = (name: string, value: string): void => {
  process.stdout.write(`${name.padEnd(64)}${value}\n`);
};
const inMs = (value: number): string => `${value.toFixed(0)} ms`;
const middle = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;
const told = (values: readonly number[]): string =>
  `median ${inMs(middle(values))}, worst of ${String(values.length)} ${inMs(Math.max(...values))}`;

/** Runs in the host beside the program: what its heap and its buffers hold after a collection, in megabytes, for whoever asks. */
const tellsMemory = `data:text/javascript,${encodeURIComponent(`
  // The threads of the program run this as well, and have no channel.
  process.channel?.unref();
  if (process.channel) process.on('message', () => {
    gc();
    const { heapUsed, external } = process.memoryUsage();
    process.send((heapUsed + external) / 1e6);
  });
`)}`;

interface Host {
  readonly url: string;
  readonly child: ChildProcess;
  readonly held: () => Promise<number>;
  readonly close: () => Promise<void>;
}

async function serve(lesson: string): Promise<Host> {
  const node = ['--expose-gc', '--import', tellsMemory];
  const child = spawn(process.execPath, [...node, program, 'studio', lesson, '--serve'], {
    env: { ...process.env, XDG_STATE_HOME: join(folder, 'state') },
    stdio: ['ignore', 'pipe', 'inherit', 'ipc'],
  });
  const ended = new Promise<void>(done => child.on('close', () => done()));
  const url = await new Promise<string>((done, failed) => {
    let said = '';
    child.stdout?.on('data', part => {
      said += String(part);
      const found = /http:\S+/.exec(said)?.[0];
      if (found !== undefined) done(found);
    });
    child.on('close', () => failed(new Error(`the workshop did not start\n${said}`)));
  });
  return {
    url,
    child,
    held: () =>
      new Promise(done => {
        child.once('message', megabytes => done(Number(megabytes)));
        child.send('memory');
      }),
    close: () => {
      child.kill('SIGINT');
      return ended;
    },
  };
}

async function show(browser: Browser, url: string): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.goto(url);
  await page.waitForSelector('html[data-ready="true"]');
  await page.waitForSelector('.claim-row');
  await page.waitForSelector('.score-pane svg.system');
  return page;
}

/** What the window notes of its keys; written into the page. */
interface Notes {
  /** From a key to the verdicts that were shown next. */
  readonly verdicts: number[];
  /** From a key to the frame that shows what it did. */
  readonly keys: number[];
  readonly tasks: number[];
}

async function listenIn(page: Page): Promise<() => Promise<Notes>> {
  await page.evaluate(() => {
    const notes: Notes = { verdicts: [], keys: [], tasks: [] };
    Reflect.set(globalThis, 'notes', notes);
    let lastKey: number | undefined;
    addEventListener(
      'keydown',
      ({ timeStamp }) => {
        lastKey = timeStamp;
        requestAnimationFrame(() => notes.keys.push(performance.now() - timeStamp));
      },
      true,
    );
    // The pane says how long each check took, also where no verdict has changed.
    const counts = document.querySelector('.counts');
    if (counts !== null)
      new MutationObserver(() => {
        if (lastKey !== undefined) notes.verdicts.push(performance.now() - lastKey);
        lastKey = undefined;
      }).observe(counts, { attributes: true });
    new PerformanceObserver(seen => {
      for (const { duration } of seen.getEntries()) notes.tasks.push(duration);
    }).observe({ type: 'longtask' });
  });
  return () => page.evaluate(() => Reflect.get(globalThis, 'notes') as Notes);
}

/** A lesson over a plain piece, on the disk. */
function plain(bars: number, claims: number): string {
  const lesson = join(folder, `plain-${String(bars)}.yaml`);
  writeFileSync(join(folder, `plain-${String(bars)}.abc`), plainScore(bars));
  writeFileSync(lesson, plainLesson(`plain-${String(bars)}.abc`, bars, claims));
  return lesson;
}

async function toFirstLine(page: Page): Promise<void> {
  await page.locator('.cm-content').focus();
  for (const key of ['Control+Home', 'ArrowDown', 'End']) await page.keyboard.press(key);
}

const longTasks = (tasks: readonly number[]): string =>
  tasks.length === 0 ? 'none' : `${String(tasks.length)}, longest ${inMs(Math.max(...tasks))}`;

async function typing(browser: Browser, name: string, bars: number, claims: number): Promise<void> {
  const host = await serve(plain(bars, claims));
  const page = await show(browser, host.url);
  // The page of the student is made meanwhile, in another thread.
  await toFirstLine(page);
  const notes = await listenIn(page);
  for (let key = 0; key < 20; key++) {
    await page.keyboard.press('x');
    await page.waitForTimeout(bars > 100 ? 1200 : 500);
  }
  const singly = await notes();
  print(`${name}: a key until its verdicts`, told(singly.verdicts));
  const before = singly.keys.length;
  await page.keyboard.type('the quick words of an author who writes without a pause', { delay: 70 });
  await page.waitForTimeout(1500);
  const { keys, tasks } = await notes();
  print(`${name}: a key until it is seen`, told(keys));
  print(`${name}: the same while writing without a pause`, told(keys.slice(before)));
  print(`${name}: tasks over 50 ms while typing`, longTasks(tasks));
  await page.close();
  await host.close();
}

/** Writes from the moment at which the window can be used, while score and verdicts are still to come. */
async function typingAtOnce(browser: Browser, name: string, bars: number, claims: number): Promise<void> {
  const host = await serve(plain(bars, claims));
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  await page.goto(host.url);
  await page.waitForSelector('html[data-ready="true"]');
  await toFirstLine(page);
  const notes = await listenIn(page);
  const began = performance.now();
  let drawn: number | undefined;
  while (drawn === undefined || performance.now() - drawn < 1000) {
    await page.keyboard.type('writing', { delay: 60 });
    const isDrawn = await page.evaluate(() =>
      document.querySelector('.score-pane .sheet[aria-busy="false"]'),
    );
    if (isDrawn !== null) drawn ??= performance.now();
  }
  const { keys, tasks } = await notes();
  print(`${name}: from its opening until the score is drawn`, inMs(drawn - began));
  print(`${name}: a key until it is seen, meanwhile`, told(keys));
  print(`${name}: tasks over 50 ms meanwhile`, longTasks(tasks));
  await page.close();
  await host.close();
}

async function starting(browser: Browser, lesson: string): Promise<void> {
  const [starts, usable, complete]: [number[], number[], number[]] = [[], [], []];
  for (let run = 0; run < 5; run++) {
    const began = performance.now();
    const host = await serve(lesson);
    starts.push(performance.now() - began);
    const opened = performance.now();
    const page = await show(browser, host.url);
    complete.push(performance.now() - opened);
    usable.push(await page.evaluate(() => performance.getEntriesByName('usable')[0]?.startTime ?? NaN));
    await page.close();
    await host.close();
  }
  print('host: from its start until it answers', told(starts));
  print('window: from its opening until it can be used', told(usable));
  print('window: until score and verdicts stand in it', told(complete));
}

/** Memory of a process that is its own, in megabytes; `NaN` on systems without /proc. */
function ownMegabytes(pid: number): number {
  try {
    const rollup = readFileSync(`/proc/${String(pid)}/smaps_rollup`, 'utf8');
    return Number(/^Pss:\s+(\d+)/m.exec(rollup)?.[1] ?? NaN) / 1024;
  } catch {
    return NaN;
  }
}

async function lasting(browser: Browser, lesson: string): Promise<void> {
  const host = await serve(lesson);
  const page = await show(browser, host.url);
  const session = await page.context().newCDPSession(page);
  const system = await browser.newBrowserCDPSession();
  await session.send('Performance.enable');
  const measure = async (): Promise<string> => {
    await session.send('HeapProfiler.collectGarbage');
    const { metrics } = await session.send('Performance.getMetrics');
    const metric = (name: string): number => metrics.find(one => one.name === name)?.value ?? NaN;
    const { processInfo } = await system.send('SystemInfo.getProcessInfo');
    const pages = processInfo.filter(({ type }) => type === 'renderer');
    const megabytes = (value: number): string => `${value.toFixed(1)} MB`;
    return [
      `heap ${megabytes(metric('JSHeapUsedSize') / 1e6)}`,
      `${String(metric('Nodes'))} nodes`,
      `${String(metric('JSEventListeners'))} listeners`,
      `pages ${megabytes(pages.reduce((sum, { id }) => sum + ownMegabytes(id), 0))}`,
      `host ${megabytes(ownMegabytes(host.child.pid ?? 0))}, of it in use ${megabytes(await host.held())}`,
    ].join(', ');
  };
  const frame = page.frameLocator('iframe');
  const began = performance.now();
  let round = 0;
  for (;;) {
    // An edit, the page that is made of it, and half a minute of listening to that.
    const address = await page.locator('iframe').getAttribute('data-page');
    await page.locator('.cm-content').focus();
    // The first line is written anew, so that the text does not grow.
    for (const key of ['Control+Home', 'Shift+End']) await page.keyboard.press(key);
    await page.keyboard.type(`# ${String(round)}`, { delay: 40 });
    await page.waitForFunction(
      former => document.querySelector('iframe')?.getAttribute('data-page') !== former,
      address,
      { timeout: 120_000 },
    );
    const play = frame.getByRole('button', { name: 'Play', exact: true });
    await play.waitFor({ timeout: 60_000 });
    await play.click();
    await page.waitForTimeout(20_000);
    const minute = (performance.now() - began) / 60_000;
    print(`after ${minute.toFixed(1)} minutes of playing and editing`, await measure());
    round++;
    if (minute >= minutes) break;
  }
  await page.close();
  await host.close();
}

for (const name of ['mill-road.yaml', 'mill-road.abc'])
  copyFileSync(join(import.meta.dirname, '..', 'sample-lessons', name), join(folder, name));
/** A browser on a desktop keeps the student's page, a stranger to the window, in a process of its own; one for tests has to be told. */
const browser = await launchBrowser(['--site-per-process', '--enable-features=IsolateSandboxedIframes']);
try {
  await starting(browser, join(folder, 'mill-road.yaml'));
  await typing(browser, '40 claims, 24 bars', 24, 40);
  await typing(browser, '300 claims, 200 bars', 200, 300);
  await typingAtOnce(browser, '300 claims, 500 bars', 500, 300);
  await lasting(browser, join(folder, 'mill-road.yaml'));
} finally {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
}
