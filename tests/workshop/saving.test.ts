/** What becomes of the author's file: never lost, never half written, never overwritten unseen. */
import { createHash } from 'node:crypto';
import {
  chmodSync,
  existsSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { bench } from './bench.js';

const sha256 = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');
const left = (folder: string): readonly string[] =>
  readdirSync(folder).filter(name => name.endsWith('.part'));

describe('saving', () => {
  it('writes the text, keeps the former state and leaves nothing beside it', async () => {
    const { get, lesson, folder } = await bench();
    const opened = await get('open', { path: lesson });
    expect(opened).toEqual({ path: lesson, text: readFileSync(lesson, 'utf8'), stamp: sha256(opened.text) });
    const text = `${opened.text}# more\n`;
    const saved = await get('save', { path: lesson, text, base: opened.stamp });
    expect(saved).toEqual({ kind: 'saved', stamp: sha256(text), backup: expect.any(String) as unknown });
    expect(readFileSync(lesson, 'utf8')).toBe(text);
    expect(saved.kind === 'saved' && readFileSync(saved.backup ?? '', 'utf8')).toBe(opened.text);
    expect(left(folder)).toEqual([]);
  });

  it('does not overwrite what another program wrote meanwhile', async () => {
    const { get, lesson } = await bench();
    const { stamp } = await get('open', { path: lesson });
    writeFileSync(lesson, 'title: by another\n');
    expect(await get('save', { path: lesson, text: 'title: mine\n', base: stamp })).toEqual({
      kind: 'changed',
      text: 'title: by another\n',
      stamp: sha256('title: by another\n'),
    });
    expect(readFileSync(lesson, 'utf8')).toBe('title: by another\n');
    const after = await get('save', {
      path: lesson,
      text: 'title: mine\n',
      base: sha256('title: by another\n'),
    });
    expect(after.kind).toBe('saved');
  });

  it('does not overwrite a file of whose existence a new lesson knew nothing', async () => {
    const { get, lesson } = await bench();
    expect(await get('save', { path: lesson, text: 'title: new\n' })).toMatchObject({ kind: 'changed' });
  });

  it('writes a file anew that was removed while it was open', async () => {
    const { get, lesson } = await bench();
    const { text, stamp } = await get('open', { path: lesson });
    rmSync(lesson);
    expect(await get('save', { path: lesson, text, base: stamp })).toEqual({
      kind: 'saved',
      stamp: sha256(text),
    });
    expect(readFileSync(lesson, 'utf8')).toBe(text);
  });

  it('keeps line ends, byte order mark and permissions', async () => {
    const { get, lesson } = await bench();
    const text = '\uFEFFtitle: one\r\nhome: C major\r\n';
    writeFileSync(lesson, text);
    chmodSync(lesson, 0o600);
    const opened = await get('open', { path: lesson });
    expect(opened.text).toBe(text);
    await get('save', { path: lesson, text: `${text}x: 1\r\n`, base: opened.stamp });
    expect(readFileSync(lesson, 'utf8')).toBe(`${text}x: 1\r\n`);
    expect(statSync(lesson).mode & 0o777).toBe(0o600);
  });

  it('writes through a link inside the folder, and lets it be a link', async () => {
    const { get, lesson, folder } = await bench();
    const link = join(folder, 'link.yaml');
    symlinkSync(lesson, link);
    const { path, stamp } = await get('open', { path: link });
    expect(path).toBe(lesson);
    await get('save', { path, text: 'title: x\n', base: stamp });
    expect(readFileSync(link, 'utf8')).toBe('title: x\n');
  });

  it('keeps the twenty latest states', async () => {
    const { get, lesson, state } = await bench();
    let { stamp } = await get('open', { path: lesson });
    for (let round = 0; round < 23; round++) {
      const saved = await get('save', { path: lesson, text: `title: ${String(round)}\n`, base: stamp });
      stamp = saved.stamp;
    }
    const [shelf = ''] = readdirSync(join(state, 'former-states'));
    const kept = readdirSync(join(state, 'former-states', shelf)).sort();
    expect(kept).toHaveLength(20);
    expect(readFileSync(join(state, 'former-states', shelf, kept.at(-1) ?? ''), 'utf8')).toBe('title: 21\n');
  });

  it('carries a lesson of two megabytes whole, and says why it makes no page of it', async () => {
    const { get, ask, lesson } = await bench();
    const { stamp } = await get('open', { path: lesson });
    const text = `title: long\n${'# a line of a very long lesson, with ♯ and ♭\n'.repeat(45_000)}`;
    expect(Buffer.byteLength(text)).toBeGreaterThan(2_000_000);
    await get('save', { path: lesson, text, base: stamp });
    expect((await get('open', { path: lesson })).text).toBe(text);
    expect(await ask('preview', { path: lesson, text })).toEqual({
      ok: false,
      problem: {
        message: 'the lesson has errors, so there is no page of it',
        help: expect.stringMatching(/characters|large|long/u) as unknown,
      },
    });
  });

  it.each([
    ['elsewhere.yaml', '/tmp/elsewhere.yaml', /outside the folders/u],
    ['above', '../elsewhere.yaml', /outside the folders/u],
    ['a hidden program', '.bashrc', /ends in `.yaml`/u],
  ])('writes nothing %s', async (_, name, words) => {
    const { ask, folder } = await bench();
    const path = name.startsWith('/') ? name : join(folder, name);
    const answer = await ask('save', { path, text: 'x' });
    expect(answer.ok ? '' : `${answer.problem.message} ${answer.problem.help ?? ''}`).toMatch(words);
    expect(existsSync(path)).toBe(false);
  });

  it('writes through no link that leads out of the folder', async () => {
    const { ask, folder, state } = await bench();
    const link = join(folder, 'out.yaml');
    symlinkSync('/etc/hostname', link);
    expect(await ask('open', { path: link })).toMatchObject({ ok: false });
    expect(await ask('save', { path: link, text: 'x' })).toMatchObject({ ok: false });
    expect(existsSync(state)).toBe(false);
  });
});
