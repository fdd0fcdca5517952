/** The workshop in a browser: who is let in, what is sent, and that nobody else gets anything. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import type { IncomingHttpHeaders } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Answer, Answers } from '../../src/bridge/index.js';
import { fromWire, toWire } from '../../src/bridge/index.js';
import { serve, studioFiles } from '../../src/workshop/index.js';
import { launchBrowser } from '../browser/launch.js';
import { bench } from './bench.js';
import type { Bench } from './bench.js';

/** A window that shows nothing: this file is about how it is served. */
let files: string;
beforeAll(() => {
  files = `${mkdtempSync(join(tmpdir(), 'barwise-window-'))}/`;
  writeFileSync(
    `${files}index.html`,
    '<!doctype html><title>Bare window</title><meta name="style-nonce" content="STYLE-NONCE"><script type="module" src="/bare.js"></script>',
  );
  writeFileSync(`${files}bare.js`, 'document.documentElement.dataset.ready = "true";');
});
afterAll(() => {
  rmSync(files, { recursive: true });
});

const closing: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0).reverse()) await close();
});

interface Reply {
  readonly status: number | undefined;
  readonly headers: IncomingHttpHeaders;
  readonly body: string;
}

interface Site extends Bench {
  readonly url: string;
  readonly origin: string;
  readonly cookie: string;
  /** Sends exactly these headers: a browser would not let a page choose them. */
  readonly send: (
    path: string,
    options?: {
      readonly method?: string;
      readonly headers?: Readonly<Record<string, string>>;
      readonly body?: string;
    },
  ) => Promise<Reply>;
}

async function site(): Promise<Site> {
  const on = await bench();
  const served = await serve(on.host, studioFiles(files), 0);
  closing.push(served.close);
  const { origin, port } = new URL(served.url);
  const send: Site['send'] = (path, { method = 'GET', headers = {}, body } = {}) =>
    new Promise((done, failed) => {
      const sent = request({ host: '127.0.0.1', port, path, method, headers }, response => {
        let text = '';
        response.setEncoding('utf8').on('data', (part: string) => (text += part));
        response.on('end', () => {
          done({ status: response.statusCode, headers: response.headers, body: text });
        });
      });
      sent.on('error', failed).end(body);
    });
  const first = await send(served.url.slice(origin.length));
  const cookie = first.headers['set-cookie']?.[0]?.split(';')[0] ?? '';
  return { ...on, url: served.url, origin, cookie, send };
}

describe('who is let in', () => {
  it('is who opens the printed address: the secret becomes a cookie and leaves the address', async () => {
    const { send, url, origin, cookie } = await site();
    const { status, headers } = await send(url.slice(origin.length));
    expect({ status, location: headers.location }).toEqual({ status: 303, location: '/' });
    expect(headers['set-cookie']).toEqual([`${cookie}; Path=/; HttpOnly; SameSite=Strict`]);
    expect((await send('/', { headers: { cookie } })).body).toContain('Bare window');
  });

  it('is nobody else', async () => {
    const { send, cookie, origin } = await site();
    const name = cookie.split('=')[0] ?? '';
    for (const headers of [
      {},
      { cookie: `${name}=guess` },
      { cookie: `${name}=` },
      { cookie: `other=${cookie.split('=')[1] ?? ''}` },
    ])
      for (const path of ['/', '/bare.js', '/events', '/?token=guess', '/?token='])
        expect((await send(path, { headers })).status).toBe(403);
    const asked = await send('/ask/begin', {
      method: 'POST',
      headers: { origin, 'content-type': 'application/json' },
      body: '{}',
    });
    expect(asked.status).toBe(403);
  });

  it('is no page that has made its own name lead to this machine', async () => {
    const { send, cookie, origin } = await site();
    for (const host of ['evil.example', `evil.example:${new URL(origin).port}`, '127.0.0.1', '0.0.0.0'])
      expect((await send('/', { headers: { cookie, host } })).status).toBe(403);
  });

  it('is no other site, even with the cookie', async () => {
    const { send, cookie, origin } = await site();
    const ask = (headers: Readonly<Record<string, string>>): Promise<Reply> =>
      send('/ask/begin', {
        method: 'POST',
        headers: { cookie, 'content-type': 'application/json', ...headers },
        body: '{}',
      });
    expect((await ask({ origin })).status).toBe(200);
    for (const headers of [
      {},
      { origin: 'null' },
      { origin: 'https://evil.example' },
      { origin: 'http://127.0.0.1:1' },
      { origin, 'sec-fetch-site': 'cross-site' },
      { origin, 'sec-fetch-site': 'same-site' },
    ])
      expect((await ask(headers)).status).toBe(403);
    expect((await send('/ask/begin', { headers: { cookie, origin } })).status).toBe(403);
    expect((await ask({ origin, 'content-type': 'text/plain' })).status).toBe(415);
    expect((await send('/events', { headers: { cookie, origin: 'null' } })).status).toBe(403);
  });
});

describe('what is sent', () => {
  it('is guarded', async () => {
    const { send, cookie } = await site();
    const { headers, body } = await send('/', { headers: { cookie } });
    const nonce = /content="([^"]+)"/u.exec(body)?.[1] ?? '';
    expect(nonce).not.toBe('STYLE-NONCE');
    const policy = String(headers['content-security-policy']);
    expect(policy).toContain(`style-src 'self' 'nonce-${nonce}'`);
    expect(policy).toMatch(/^default-src 'none'; script-src 'self' 'wasm-unsafe-eval';/u);
    expect(policy).not.toMatch(/unsafe-inline|'unsafe-eval'|\*|https?:/u);
    expect(headers).toMatchObject({
      'x-content-type-options': 'nosniff',
      'referrer-policy': 'no-referrer',
      'cache-control': 'no-store',
      'cross-origin-opener-policy': 'same-origin',
      'cross-origin-resource-policy': 'same-origin',
    });
    const again = await send('/', { headers: { cookie } });
    expect(again.body).not.toContain(nonce);
  });

  it('is no file but the window and the pages', async () => {
    const { send, cookie } = await site();
    for (const path of [
      '/../bench.ts',
      '/%2e%2e/bench.ts',
      '/..%2f..%2fetc/passwd',
      '/etc/passwd',
      '/index.html/x',
      '/preview/x/y.html',
      '//evil.example/',
    ])
      expect((await send(path, { headers: { cookie } })).status).toBe(404);
  });

  it('answers requests and refuses what is none', async () => {
    const { send, cookie, origin, lesson } = await site();
    const headers = { cookie, origin, 'content-type': 'application/json' };
    const ask = async (name: string, body: string): Promise<unknown> =>
      fromWire((await send(`/ask/${name}`, { method: 'POST', headers, body })).body);
    expect(await ask('open', toWire({ path: lesson }))).toMatchObject({
      ok: true,
      value: { text: readFileSync(lesson, 'utf8') },
    });
    expect(await ask('open', '{"path":')).toEqual({ ok: false, problem: { message: 'this is no JSON' } });
    expect(await ask('open', '[]')).toMatchObject({ ok: false });
    expect(await ask('choose', toWire({ what: 'lesson' }))).toEqual({
      ok: false,
      problem: { message: 'this host has no dialogs' },
    });
  });

  it('carries recordings both ways', async () => {
    const { send, cookie, origin, lesson } = await site();
    const headers = { cookie, origin, 'content-type': 'application/json' };
    const ask = async (name: string, payload: unknown): Promise<unknown> =>
      fromWire((await send(`/ask/${name}`, { method: 'POST', headers, body: toWire(payload) })).body);
    // Half a second of a tone of 440 Hz, with every byte that a transport might trip over in it.
    const samples = Int16Array.from(
      { length: 4000 },
      (_, n) => 12_000 * Math.sin((2 * Math.PI * 440 * n) / 8000),
    );
    const pcm = new Uint8Array(samples.buffer);
    expect(
      await ask('saveTake', { path: lesson, id: '1.1', words: 'x', pcm, sampleRate: 8000 }),
    ).toMatchObject({
      ok: true,
      value: { recording: 1 },
    });
    const read = (await ask('readTake', { path: lesson, id: '1.1', recording: 1 })) as Answer<
      Answers['readTake']
    >;
    const sound = Buffer.from(read.ok ? read.value.sound : []);
    expect(sound.subarray(0, 4).toString('latin1')).toBe('RIFF');
    expect(sound.includes(Buffer.from(pcm))).toBe(true);
    expect(await ask('readTake', { path: lesson, id: '../mill-road', recording: 1 })).toMatchObject({
      ok: false,
    });
  });
});

describe('in a browser', () => {
  it('the window asks and hears, and no script but its own runs', async () => {
    const { url, origin, lesson } = await site();
    const browser = await launchBrowser();
    closing.push(() => browser.close());
    const page = await browser.newPage();
    await page.goto(url);
    await page.waitForSelector('html[data-ready]', { state: 'attached' });
    expect(page.url()).toBe(`${origin}/`);
    const opened = await page.evaluate(async path => {
      const script = document.createElement('script');
      script.textContent = 'document.title = "injected"';
      document.head.append(script);
      const heard = new Promise<string>(done => {
        const events = new EventSource('/events');
        events.addEventListener('message', ({ data }) => {
          done(String(data));
        });
        events.addEventListener('open', () => {
          document.documentElement.dataset['listening'] = 'true';
        });
      });
      Reflect.set(globalThis, 'heard', heard);
      const response = await fetch('/ask/open', {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ path }),
      });
      return [await response.text(), document.title];
    }, lesson);
    expect(opened).toEqual([expect.stringContaining('"ok":true') as unknown, 'Bare window']);
    await page.waitForSelector('html[data-listening]', { state: 'attached' });
    writeFileSync(lesson, 'title: by another\n');
    const heard = await page.evaluate(() => Reflect.get(globalThis, 'heard') as Promise<string>);
    expect(JSON.parse(heard)).toMatchObject({ kind: 'changed-on-disk', path: lesson });
    const stranger = await browser.newPage();
    expect((await stranger.goto(`${origin}/`))?.status()).toBe(403);
  });
});
