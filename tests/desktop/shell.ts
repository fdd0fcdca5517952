import { fork } from 'node:child_process';
import { copyFileSync, cpSync, mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';
import type { Browser, Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, afterEach, beforeAll } from 'vitest';
import type { Order, Report } from './stand-in/talk.js';
import { built } from '../built.js';
import { windowFiles } from '../studio/window-files.js';
import { sharedSpeech } from '../temporary-folder.js';

export const root = fileURLToPath(new URL('../../', import.meta.url));

/** A window that shows nothing: what a test asks its host goes through the same bridge as the workshop's own. */
const bareWindow = `<!doctype html><html><head><meta charset="utf-8"><title>Bare window</title>
<meta name="style-nonce" content="STYLE-NONCE"><script type="module" src="/bare.js"></script></head><body></body></html>`;

/** Puts what `npm run build` makes into a folder: a copy of it, or made anew where it is older than the sources. */
async function make(file: string, folder: string, configFile: string): Promise<void> {
  const made = built(file);
  const outDir = join(folder, dirname(file));
  if (made === undefined)
    await build({ logLevel: 'error', configFile: join(root, configFile), build: { outDir } });
  else cpSync(dirname(made), outDir, { recursive: true });
}

/**
 * Builds the shell as it is in the sources now, with the stand-in where its program looks for Electron.
 * @param window what it shows: the workshop's own window, or one in which a test asks the host by itself
 * @returns the folder; it lies below the project so that the other packages are found from it
 */
async function buildShell(window: 'own' | 'bare'): Promise<string> {
  mkdirSync(join(root, 'build'), { recursive: true });
  const folder = mkdtempSync(join(root, 'build', 'shell-'));
  const electron = join(folder, 'node_modules', 'electron');
  await make('desktop/main.js', folder, 'vite.desktop.config.ts');
  await make('desktop/preload.cjs', folder, 'vite.preload.config.ts');
  await make('player/player.js', folder, 'vite.config.ts');
  await build({
    logLevel: 'error',
    configFile: false,
    build: {
      ssr: join(root, 'tests/desktop/stand-in/electron.ts'),
      outDir: electron,
      rolldownOptions: { output: { entryFileNames: 'index.js' } },
    },
  });
  writeFileSync(
    join(electron, 'package.json'),
    '{ "name": "electron", "type": "module", "main": "index.js" }',
  );
  if (window === 'own') {
    cpSync(await windowFiles(), join(folder, 'studio'), { recursive: true });
    return folder;
  }
  mkdirSync(join(folder, 'studio'));
  writeFileSync(join(folder, 'studio', 'index.html'), bareWindow);
  writeFileSync(join(folder, 'studio', 'bare.js'), 'document.documentElement.dataset.ready = "true";');
  return folder;
}

/** The shell, running, with the test as its user. */
export interface Shell {
  /** A folder of lessons, with `mill-road.yaml` and its score in it. */
  readonly folder: string;
  readonly lesson: string;
  readonly state: string;
  /** What the shell did so far. */
  readonly reports: readonly Report[];
  readonly order: (order: Order) => void;
  /** The newest report of a kind, when there is one that was not waited for before. */
  readonly next: <K extends Report['kind']>(kind: K) => Promise<Extract<Report, { kind: K }>>;
  readonly page: Page;
  readonly kill: () => Promise<void>;
  /** Code with which the program ended by itself. */
  readonly ended: Promise<number | null>;
}

export interface ShellOptions {
  readonly open?: boolean;
  /** The sound file that its microphone hears. */
  readonly heard?: Buffer;
  /** Folders of a shell that ran before. */
  readonly after?: Shell;
}

async function startShell(built: string, { open = true, after, heard }: ShellOptions = {}): Promise<Shell> {
  const base =
    after === undefined
      ? realpathSync(mkdtempSync(join(tmpdir(), 'barwise-shell-')))
      : join(after.folder, '..');
  const [folder, state] = [join(base, 'lessons'), join(base, 'state')];
  const lesson = join(folder, 'mill-road.yaml');
  if (after === undefined) {
    mkdirSync(folder);
    for (const name of ['mill-road.yaml', 'mill-road.abc'])
      copyFileSync(join(root, 'sample-lessons', name), join(folder, name));
  }
  const sound = join(base, 'heard.wav');
  if (heard !== undefined) writeFileSync(sound, heard);
  const child = fork(join(built, 'desktop', 'main.js'), open ? [lesson] : [], {
    cwd: folder,
    env: {
      ...process.env,
      XDG_STATE_HOME: state,
      XDG_CACHE_HOME: sharedSpeech(),
      BARWISE_TEST_DOCUMENTS: folder,
      ...(heard === undefined ? {} : { BARWISE_TEST_HEARD: sound }),
    },
    execArgv: [],
    stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
  });
  const reports: Report[] = [];
  const taken = new Set<Report>();
  let errors = '';
  child.stderr?.on('data', part => (errors += String(part)));
  child.on('message', (report: Report) => reports.push(report));
  let isOver = false;
  const ended = new Promise<number | null>(done => {
    child.on('close', code => {
      isOver = true;
      done(code);
    });
  });
  const next: Shell['next'] = async kind => {
    for (;;) {
      const found = reports.find(
        (report): report is Extract<Report, { kind: typeof kind }> =>
          report.kind === kind && !taken.has(report),
      );
      if (found !== undefined) {
        taken.add(found);
        return found;
      }
      if (isOver) throw new Error(`the shell has ended\n${errors}`);
      await new Promise(done => setTimeout(done, 20));
    }
  };
  const { port } = await next('browser');
  await next('window');
  const browser: Browser = await chromium.connectOverCDP(`http://127.0.0.1:${String(port)}`);
  let page: Page | undefined;
  while (page === undefined) {
    page = browser
      .contexts()
      .flatMap(context => context.pages())
      .find(one => one.url().startsWith('http://studio.localhost:'));
    if (isOver) throw new Error(`the shell has ended\n${errors}`);
    await new Promise(done => setTimeout(done, 20));
  }
  await page.waitForSelector('html[data-ready]', { state: 'attached' });
  return {
    folder,
    lesson,
    state,
    reports,
    next,
    page,
    ended,
    order: order => child.send(order),
    kill: async () => {
      child.kill('SIGKILL');
      await ended;
      await browser.close().catch(() => undefined);
    },
  };
}

const removeFolder = (folder: string): void => {
  rmSync(folder, { recursive: true, force: true });
};

/** Builds the shell for the tests of a file, starts it as often as they ask, and ends and clears away after each of them. */
export function shells(window: 'own' | 'bare'): (options?: ShellOptions) => Promise<Shell> {
  let built: string;
  const running: Shell[] = [];
  beforeAll(async () => {
    built = await buildShell(window);
  });
  afterAll(() => {
    removeFolder(built);
  });
  afterEach(async () => {
    for (const shell of running.splice(0)) {
      await shell.kill();
      removeFolder(join(shell.folder, '..'));
    }
  });
  return async options => {
    const shell = await startShell(built, options);
    running.push(shell);
    return shell;
  };
}
