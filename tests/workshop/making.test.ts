/** Pages, exports and recordings, made in threads while the host goes on answering. */
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bench, until } from './bench.js';

const lessonOf = (title: string, words = 'Listen.'): string => `format: 1
title: ${title}
score: mill-road.abc
home: B minor
steps:
  - title: The beginning
    bars: 1-2
    say: ${words}
`;

const bytesOf = (page: Uint8Array | undefined): string => Buffer.from(page ?? []).toString('utf8');

/** RIFF WAVE, 16 bits, one channel, 16 kHz: a tone of some seconds. */
function tone(seconds: number): Uint8Array<ArrayBuffer> {
  const frames = seconds * 16_000;
  const bytes = Buffer.alloc(44 + frames * 2);
  bytes.write('RIFF', 0);
  bytes.writeUInt32LE(36 + frames * 2, 4);
  bytes.write('WAVEfmt ', 8);
  bytes.writeUInt32LE(16, 16);
  bytes.writeUInt16LE(1, 20);
  bytes.writeUInt16LE(1, 22);
  bytes.writeUInt32LE(16_000, 24);
  bytes.writeUInt32LE(32_000, 28);
  bytes.writeUInt16LE(2, 32);
  bytes.writeUInt16LE(16, 34);
  bytes.write('data', 36);
  bytes.writeUInt32LE(frames * 2, 40);
  for (let frame = 0; frame < frames; frame++)
    bytes.writeInt16LE(Math.round(9000 * Math.sin(frame / 6)), 44 + frame * 2);
  return new Uint8Array(bytes);
}

describe('a preview', () => {
  it('is the page of the newest text; an older one that is still being made is given up', async () => {
    const { get, ask, lesson, host } = await bench();
    const older = ask('preview', { path: lesson, text: lessonOf('Older') });
    const newer = get('preview', { path: lesson, text: lessonOf('Newer') });
    expect(await older).toEqual({ ok: false, problem: { message: 'a newer text is being shown' } });
    const { url } = await newer;
    expect(url).toMatch(/^\/preview\/[0-9a-f]{16}\/mill-road\.html$/u);
    expect(bytesOf(host.page(url))).toContain('<title>Newer</title>');
    const next = await get('preview', { path: lesson, text: lessonOf('Newest') });
    expect(bytesOf(host.page(next.url))).toContain('<title>Newest</title>');
    expect(host.page(url)).toBeUndefined();
  });

  it('of a lesson with errors says which is the first', async () => {
    const { ask, lesson } = await bench();
    expect(await ask('preview', { path: lesson, text: lessonOf('x').replace('bars:', 'baars:') })).toEqual({
      ok: false,
      problem: {
        message: 'the lesson has errors, so there is no page of it',
        help: expect.stringMatching(/^mill-road\.yaml, line 7: .*baars.*\(L\d{4}\)$/u) as unknown,
      },
    });
  });
});

describe('an export', () => {
  it('writes every file whole and tells of its progress', async () => {
    const { get, lesson, folder, events } = await bench();
    const out = join(folder, 'out');
    const text = lessonOf('Export');
    const { files } = await get('build', { path: lesson, text, folder: out, also: ['srt', 'wav'], job: 'a' });
    expect(files.map(({ path }) => path).sort()).toEqual(
      ['mill-road.html', 'mill-road.srt', 'mill-road.vtt', 'mill-road.wav'].map(name => join(out, name)),
    );
    expect(readdirSync(out).sort()).toEqual(files.map(({ path }) => path.slice(out.length + 1)).sort());
    for (const { path, bytes } of files) expect(readFileSync(path)).toHaveLength(bytes);
    expect(readFileSync(join(out, 'mill-road.html'), 'utf8')).toContain('<title>Export</title>');
    expect(
      events.some(event => event.kind === 'progress' && event.job === 'a' && (event.share ?? 0) > 0),
    ).toBe(true);
  });

  it('that is cancelled leaves what was there, and nothing else', async () => {
    const { ask, lesson, folder, events } = await bench();
    const kept = join(folder, 'mill-road.html');
    writeFileSync(kept, 'an earlier page');
    const before = readdirSync(folder).sort();
    const running = ask('build', {
      path: lesson,
      text: lessonOf('x', 'Another text.'),
      folder,
      also: ['wav'],
      job: 'b',
    });
    await until(() => events.some(({ kind }) => kind === 'progress'));
    expect(readdirSync(folder).some(name => name.endsWith('.part'))).toBe(true);
    await ask('cancel', { job: 'b' });
    expect(await running).toEqual({
      ok: false,
      problem: { message: 'the export was cancelled', help: 'nothing was written' },
    });
    expect(readdirSync(folder).sort()).toEqual(before);
    expect(readFileSync(kept, 'utf8')).toBe('an earlier page');
  });
});

describe('recordings', () => {
  it('are kept, replaced, taken back, and known to be stale when the words change', async () => {
    const { get, ask, lesson, folder } = await bench();
    const [text, id] = [lessonOf('Takes'), '1.1'];
    const known = async (of = text): Promise<readonly unknown[]> =>
      (await get('takes', { path: lesson, text: of })).takes.map(({ seconds, ...rest }) => ({
        ...rest,
        seconds: Math.round(seconds),
      }));
    expect(await known()).toEqual([]);
    for (const seconds of [1, 2])
      await get('saveTake', { path: lesson, id, words: 'Listen.', wav: tone(seconds) });
    const take = { id, file: '1.1.wav', stale: false, hasFormer: true, seconds: 2 };
    expect(await known()).toEqual([take]);
    expect(await known(lessonOf('Takes', 'Listen again.'))).toEqual([{ ...take, stale: true }]);
    expect((await get('readTake', { path: lesson, file: '1.1.wav' })).wav).toEqual(tone(2));
    await get('undoTake', { path: lesson, id });
    expect(await known()).toEqual([{ ...take, hasFormer: false, seconds: 1 }]);
    await get('undoTake', { path: lesson, id });
    expect(await known()).toEqual([]);
    expect(existsSync(join(folder, 'takes', 'removed'))).toBe(true);
    expect(await ask('undoTake', { path: lesson, id })).toMatchObject({ ok: false });
    expect(await ask('saveTake', { path: lesson, id, words: 'x', wav: new Uint8Array([1, 2, 3]) })).toEqual({
      ok: false,
      problem: { message: 'the recording cannot be used: not a WAV file' },
    });
  });
});
