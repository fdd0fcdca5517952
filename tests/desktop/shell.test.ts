/**
 * The desktop shell's own main process and preload, over the stand-in for Electron's modules (stand-in/electron.ts), with its windows in a real
 * Chromium. Electron's program itself is driven by real-program.test.ts.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import type { Answer, Answers, Bridge, HostEvent, Payload, RequestName } from '../../src/bridge/index.js';
import { root, shells } from './shell.js';
import type { Shell, ShellOptions } from './shell.js';

interface WithHost {
  readonly barwiseHost: Bridge;
  heard: HostEvent[];
}

const shortLesson = `format: 1
title: Another title
score: mill-road.abc
home: B minor
steps:
  - title: The beginning
    bars: 1-2
    say: Listen.
`;

const startBare = shells('bare');

async function start(options?: ShellOptions): Promise<Shell> {
  const shell = await startBare(options);
  await shell.page.evaluate(() => {
    const window = globalThis as unknown as WithHost;
    window.heard = [];
    window.barwiseHost.listen(event => window.heard.push(event));
  });
  return shell;
}

const ask = async <N extends RequestName>(
  page: Page,
  name: N,
  payload: Payload<N>,
): Promise<Answer<Answers[N]>> => {
  const sent: readonly [RequestName, unknown] = [name, payload];
  const answer: unknown = await page.evaluate(
    ([asked, with_]) => (globalThis as unknown as WithHost).barwiseHost.ask(asked, with_ as never),
    sent,
  );
  return answer as Answer<Answers[N]>;
};

async function get<N extends RequestName>(page: Page, name: N, payload: Payload<N>): Promise<Answers[N]> {
  const answer = await ask(page, name, payload);
  if (!answer.ok) throw new Error(answer.problem.message);
  return answer.value;
}

const heard = (page: Page): Promise<readonly HostEvent[]> =>
  page.evaluate(() => (globalThis as unknown as WithHost).heard);

async function hears(page: Page, kind: HostEvent['kind']): Promise<HostEvent> {
  for (;;) {
    const found = (await heard(page)).find(event => event.kind === kind);
    if (found !== undefined) return found;
    await page.waitForTimeout(20);
  }
}

describe('the window', () => {
  it('is closed to everything but its host', async () => {
    const { page, reports, next } = await start();
    // Electron documentation, "Security": rules 2 to 5 and 15 (isolation, sandbox, no Node, web security, custom protocols over file://).
    expect(reports.find(({ kind }) => kind === 'window')).toMatchObject({
      address: 'barwise://studio/',
      preferences: {
        contextIsolation: true,
        sandbox: true,
        nodeIntegration: false,
        nodeIntegrationInWorker: false,
        nodeIntegrationInSubFrames: false,
        webviewTag: false,
        webSecurity: true,
      },
    });
    expect((await next('schemes')).schemes).toEqual([
      {
        scheme: 'barwise',
        privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true },
      },
    ]);
    expect(await page.evaluate(() => Object.keys((globalThis as unknown as WithHost).barwiseHost))).toEqual([
      'ask',
      'listen',
    ]);
    expect(
      await page.evaluate(() => [
        typeof Reflect.get(globalThis, 'require'),
        typeof Reflect.get(globalThis, 'process'),
      ]),
    ).toEqual(['undefined', 'undefined']);
  });

  it('runs no script but its own', async () => {
    const { page } = await start();
    const ran = await page.evaluate(() => {
      const script = document.createElement('script');
      script.textContent = 'document.title = "injected"';
      document.head.append(script);
      const style = document.createElement('style');
      style.textContent = 'body { color: rgb(1, 2, 3) }';
      document.head.append(style);
      const allowed = document.createElement('style');
      allowed.nonce = document.querySelector<HTMLMetaElement>('meta[name="style-nonce"]')?.content ?? '';
      allowed.textContent = 'body { background: rgb(4, 5, 6) }';
      document.head.append(allowed);
      const { color, backgroundColor } = getComputedStyle(document.body);
      return { title: document.title, color, backgroundColor };
    });
    expect(ran).toEqual({ title: 'Bare window', color: 'rgb(0, 0, 0)', backgroundColor: 'rgb(4, 5, 6)' });
  });

  it('goes nowhere else, opens nothing and fetches nothing', async () => {
    const { page, next } = await start();
    await page.evaluate(() => {
      location.href = 'https://example.org/';
    });
    expect(await next('refused')).toMatchObject({ what: 'navigation', address: 'https://example.org/' });
    await page.evaluate(() => {
      window.open('barwise-elsewhere://x', '_blank');
      window.open('about:blank#new', '_blank');
    });
    expect(await next('refused')).toMatchObject({ what: 'window' });
    const fetched = await page.evaluate(() =>
      fetch('https://example.org/').then(
        () => 'fetched',
        () => 'refused',
      ),
    );
    expect(fetched).toBe('refused');
    expect(page.url()).toMatch(/^http:\/\/studio\.localhost:\d+\/$/u);
  });

  it('gets the microphone and nothing else', async () => {
    const { page, next } = await start();
    const verdict = async (constraints: MediaStreamConstraints): Promise<boolean> => {
      const error = await page.evaluate(
        wanted =>
          navigator.mediaDevices.getUserMedia(wanted).then(
            () => '',
            (reason: unknown) => (reason instanceof DOMException ? reason.name : 'another error'),
          ),
        constraints,
      );
      const { isGranted } = await next('permission');
      expect(error).toBe(isGranted ? '' : 'NotAllowedError');
      return isGranted;
    };
    expect(await verdict({ audio: true })).toBe(true);
    expect(await verdict({ video: true })).toBe(false);
    expect(await verdict({ audio: true, video: true })).toBe(false);
  });

  it('keeps what was recorded beside the lesson', async () => {
    const { page, lesson, folder } = await start();
    const { text } = await get(page, 'open', { path: lesson });
    const samples = Int16Array.from({ length: 4800 }, (_, n) => 8000 * Math.sin(n / 10));
    const recorded = await page.evaluate(
      ([path, values]) =>
        (globalThis as unknown as WithHost).barwiseHost.ask('saveTake', {
          path,
          id: '1.1',
          words: 'Listen.',
          pcm: new Uint8Array(Int16Array.from(values).buffer),
          sampleRate: 48_000,
        }),
      [lesson, [...samples]] as const,
    );
    expect(recorded).toEqual({ ok: true, value: { recording: 1 } });
    const wav = readFileSync(join(folder, 'takes', '1.1.wav'));
    expect([...new Int16Array(wav.buffer.slice(wav.byteOffset + 44, wav.byteOffset + wav.length))]).toEqual([
      ...samples,
    ]);
    const { parts } = await get(page, 'takes', { path: lesson, text });
    expect(parts[0]?.take).toEqual({ recording: 1, stale: true });
  });

  it('gets a refusal for what is not in the table', async () => {
    const { page } = await start();
    expect(await ask(page, 'spawn' as RequestName, {} as never)).toEqual({
      ok: false,
      problem: { message: 'nothing is called `spawn`' },
    });
    expect(await ask(page, 'open', { path: 1 } as never)).toMatchObject({
      ok: false,
      problem: { message: '`open` was asked in a wrong way' },
    });
    expect(await ask(page, '__proto__' as RequestName, {} as never)).toMatchObject({ ok: false });
  });
});

describe('files', () => {
  it('are opened where the user chose, and nowhere else', async () => {
    const { page, lesson, folder, next, order } = await start({ open: false });
    expect(await get(page, 'begin', {})).toMatchObject({ dialogs: true, recent: [] });
    expect(await ask(page, 'open', { path: lesson })).toMatchObject({ ok: false });
    const choosing = get(page, 'choose', { what: 'lesson' });
    const { number, what, options } = await next('dialog');
    expect([what, options['defaultPath']]).toEqual(['open', folder]);
    order({ kind: 'dialog-answer', number, paths: [lesson] });
    expect(await choosing).toEqual({ path: lesson });
    expect((await get(page, 'open', { path: lesson })).text).toBe(readFileSync(lesson, 'utf8'));
    expect(await get(page, 'readScore', { lesson, score: 'mill-road.abc' })).toMatchObject({
      text: readFileSync(join(folder, 'mill-road.abc'), 'utf8'),
    });
    expect(await ask(page, 'open', { path: join(root, 'sample-lessons/long-table.yaml') })).toMatchObject({
      ok: false,
    });
  });

  it('are saved under a name that the user chose, or not at all', async () => {
    const { page, lesson, folder, next, order } = await start();
    const { text } = await get(page, 'open', { path: lesson });
    let choosing = get(page, 'choose', { what: 'save-as', near: lesson });
    order({ kind: 'dialog-answer', number: (await next('dialog')).number, paths: [] });
    expect(await choosing).toEqual({});
    choosing = get(page, 'choose', { what: 'save-as', near: lesson });
    const other = join(folder, 'other.yaml');
    order({ kind: 'dialog-answer', number: (await next('dialog')).number, paths: [other] });
    expect(await choosing).toEqual({ path: other });
    expect(await get(page, 'save', { path: other, text })).toMatchObject({ kind: 'saved' });
    expect(readFileSync(other, 'utf8')).toBe(text);
  });

  it('that another program changes are reported to the window', async () => {
    const { page, lesson } = await start();
    await get(page, 'open', { path: lesson });
    writeFileSync(lesson, 'title: by another\n');
    expect(await hears(page, 'changed-on-disk')).toMatchObject({ path: lesson });
  });

  it('unsaved come back when the program was killed', async () => {
    const first = await start();
    const { stamp, text } = await get(first.page, 'open', { path: first.lesson });
    await get(first.page, 'journal', {
      path: first.lesson,
      text: 'title: unsaved\n',
      ...(stamp === undefined ? {} : { base: stamp }),
    });
    await first.kill();
    const second = await start({ after: first, open: false });
    const { unsaved, recent } = await get(second.page, 'begin', {});
    expect([unsaved.map(({ title }) => title), recent.map(({ path }) => path)]).toEqual([
      ['unsaved'],
      [first.lesson],
    ]);
    expect((await get(second.page, 'open', { path: first.lesson })).unsaved).toEqual({
      text: 'title: unsaved\n',
      base: stamp,
      baseText: text,
    });
  });
});

describe('the menu', () => {
  it('sends its commands to the window', async () => {
    const { page, order, next } = await start();
    const { labels } = await next('menu-shown');
    expect(labels.find(([title]) => title === 'Lesson')).toEqual([
      'Lesson',
      'New from a score…',
      'Open…',
      'Open a recent one…',
      '',
      'Save',
      'Save as…',
      '',
      'Narration',
      'Build the walkthrough…',
      '',
      'close',
      'quit',
    ]);
    order({ kind: 'menu', labels: ['Lesson', 'Save as…'] });
    expect(await hears(page, 'menu')).toEqual({ kind: 'menu', command: 'save-as' });
  });
});

describe('closing', () => {
  it('asks the window, which closes itself', async () => {
    const { page, order, ended } = await start();
    await get(page, 'begin', {});
    order({ kind: 'close' });
    await hears(page, 'close-asked');
    await get(page, 'leave', {});
    await page.evaluate(() => {
      window.close();
    });
    expect(await ended).toBe(0);
  });

  it('asks again where the window has stayed', async () => {
    const { page, order } = await start();
    await get(page, 'begin', {});
    order({ kind: 'close' });
    await hears(page, 'close-asked');
    order({ kind: 'close' });
    for (;;) {
      const asked = (await heard(page)).filter(({ kind }) => kind === 'close-asked');
      if (asked.length === 2) break;
      await page.waitForTimeout(20);
    }
    expect(page.isClosed()).toBe(false);
  });

  it('of a window whose page has not begun needs no answer', async () => {
    const { order, ended } = await start();
    order({ kind: 'close' });
    expect(await ended).toBe(0);
  });

  it('of a window that has crashed needs no answer', async () => {
    const { page, next, ended } = await start();
    page.goto('chrome://crash').catch(() => undefined);
    expect((await next('error-box')).content).toContain('Unsaved work is kept');
    expect(await ended).toBe(0);
  });
});

describe('the preview', () => {
  it('is the page of the text as it stands, in a frame that is a stranger to the window', async () => {
    const { page, lesson, next } = await start();
    const { url } = await get(page, 'preview', { path: lesson, text: shortLesson });
    await page.evaluate(address => {
      const frame = document.createElement('iframe');
      frame.sandbox.add('allow-scripts');
      frame.src = address;
      document.body.append(frame);
    }, url);
    const frame = page.frameLocator('iframe');
    await frame.locator('html[data-ready]').waitFor({ state: 'attached', timeout: 50_000 });
    expect(await frame.locator('h1').first().textContent()).toBe('Another title');
    const inside = page.frames().find(one => one !== page.mainFrame());
    expect(await inside?.evaluate(() => [origin, typeof Reflect.get(globalThis, 'barwiseHost')])).toEqual([
      'null',
      'undefined',
    ]);
    expect(existsSync(join(lesson, '..', 'mill-road.html'))).toBe(false);
    // A lesson may come from somebody else: its page hears nothing.
    const heard = await inside?.evaluate(async () => {
      const { mediaDevices } = navigator as { readonly mediaDevices?: MediaDevices };
      if (mediaDevices === undefined) return 'no microphone';
      return mediaDevices.getUserMedia({ audio: true }).then(
        () => 'granted',
        (reason: unknown) => (reason instanceof DOMException ? reason.name : String(reason)),
      );
    });
    expect([heard, (await next('permission')).isGranted]).toEqual(['NotAllowedError', false]);
  });
});
