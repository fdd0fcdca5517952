import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkWritable, writeWhole } from '../../src/output/index.js';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

describe('writing files whole', () => {
  let folder = '';
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'barwise-write-'));
  });
  afterEach(() => {
    chmodSync(folder, 0o755);
    rmSync(folder, { recursive: true });
  });

  it('makes the folder, writes every file and leaves nothing else', async () => {
    const target = join(folder, 'a', 'b');
    const paths = await writeWhole(target, [
      { name: 'one.html', bytes: bytes('one') },
      { name: 'two.vtt', bytes: bytes('two') },
    ]);
    expect(paths).toEqual([join(target, 'one.html'), join(target, 'two.vtt')]);
    expect(paths.map(path => readFileSync(path, 'utf8'))).toEqual(['one', 'two']);
    expect(readdirSync(target).sort()).toEqual(['one.html', 'two.vtt']);
  });

  it('removes what killed programs have left, text and sound, and nothing that another may still be writing', async () => {
    const leave = (name: string, hours: number): void => {
      const time = new Date(Date.now() - hours * 3_600_000);
      writeFileSync(join(folder, name), 'half');
      utimesSync(join(folder, name), time, time);
    };
    for (const name of ['.page.html.0123456789ab.part', '.lesson.mp3.ba9876543210.part']) leave(name, 2);
    const others = ['.lesson.wav.0123456789ab.part', 'notes.part'];
    leave('.lesson.wav.0123456789ab.part', 0.5);
    leave('notes.part', 2);
    await writeWhole(folder, [{ name: 'one.html', bytes: bytes('new') }]);
    expect(readdirSync(folder).sort()).toEqual([...others, 'one.html'].sort());
  });

  it('replaces what was there', async () => {
    writeFileSync(join(folder, 'one.html'), 'a much longer text that was there before');
    await writeWhole(folder, [{ name: 'one.html', bytes: bytes('new') }]);
    expect(readFileSync(join(folder, 'one.html'), 'utf8')).toBe('new');
  });

  it('changes nothing where one of the files cannot be put in its place', async () => {
    writeFileSync(join(folder, 'one.html'), 'old');
    // A folder that is not empty cannot be replaced by a file (POSIX rename).
    mkdirSync(join(folder, 'first.html', 'inner'), { recursive: true });
    const written = writeWhole(folder, [
      { name: 'first.html', bytes: bytes('new') },
      { name: 'one.html', bytes: bytes('new') },
    ]);
    await expect(written).rejects.toMatchObject({ code: 'EISDIR' });
    expect(readFileSync(join(folder, 'one.html'), 'utf8')).toBe('old');
    expect(readdirSync(folder).sort()).toEqual(['first.html', 'one.html']);
  });

  it('says before long work whether it could write', async () => {
    writeFileSync(join(folder, 'file'), 'text');
    await expect(checkWritable(folder)).resolves.toBeUndefined();
    await expect(checkWritable(join(folder, 'not', 'yet'))).resolves.toBeUndefined();
    await expect(checkWritable(join(folder, 'file'))).rejects.toMatchObject({ code: 'EEXIST' });
    await expect(checkWritable(join(folder, 'file', 'below'))).rejects.toMatchObject({ code: 'ENOTDIR' });
    expect(readdirSync(folder)).toEqual(['file']);
  });

  it.runIf(process.platform === 'linux')('gives up where the system cannot make a folder', async () => {
    await expect(writeWhole('/proc/barwise/walkthrough', [])).rejects.toMatchObject({ code: 'ENOENT' });
  });

  it('refuses a file where a folder is needed', async () => {
    writeFileSync(join(folder, 'file'), 'text');
    await expect(writeWhole(join(folder, 'file'), [{ name: 'a', bytes: bytes('a') }])).rejects.toMatchObject({
      code: 'EEXIST',
    });
    expect(readFileSync(join(folder, 'file'), 'utf8')).toBe('text');
  });

  it.each(['../out.html', 'a/b.html', '..', '.', '/etc/x'])('refuses the name %s', async name => {
    await expect(writeWhole(folder, [{ name, bytes: bytes('x') }])).rejects.toThrow(RangeError);
    expect(readdirSync(folder)).toEqual([]);
    expect(existsSync(join(folder, '..', 'out.html'))).toBe(false);
  });
});
