/** Pages and exports, made in threads while the host goes on answering. */
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
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
