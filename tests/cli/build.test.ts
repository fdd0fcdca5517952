/** `barwise build` as a process. What the page does is tested in tests/browser. */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { barwise, root } from './barwise.js';

const good = `${root}tests/fixtures/check/all-hold/lesson.yaml`;

describe('build', () => {
  let folder = '';
  beforeAll(() => {
    if (!existsSync(`${root}dist/player/player.js`)) {
      execFileSync(
        process.execPath,
        [`${root}node_modules/vite/bin/vite.js`, 'build', '--logLevel', 'error'],
        { cwd: root },
      );
    }
  });
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'barwise-build-'));
  });
  afterEach(() => {
    rmSync(folder, { recursive: true });
  });

  it('writes a page that needs nothing else, and captions', async () => {
    const out = join(folder, 'new', 'walkthrough');
    const { code, stdout, stderr } = await barwise(['build', good, '--out', out]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(readdirSync(out).sort()).toEqual(['lesson.html', 'lesson.vtt']);
    expect(stdout).toContain(`4 claims: 4 hold`);
    expect(stdout).toContain('2 files written:');
    const page = readFileSync(join(out, 'lesson.html'), 'utf8');
    expect(page).toContain('The garden gate');
    // W3C WebVTT, section 4.1: the file begins with the word WEBVTT.
    expect(readFileSync(join(out, 'lesson.vtt'), 'utf8')).toMatch(/^WEBVTT\n/);
  });

  it('writes beside the page what it is asked for, whole and in step', async () => {
    const { code, stdout, stderr } = await barwise([
      'build',
      good,
      '--out',
      folder,
      '--also',
      'all',
      '--cache',
      join(folder, 'kept'),
    ]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toContain('12 files written:');
    // A small file is none of 0 kB.
    expect(stdout).not.toContain(' 0 kB');
    const beside = [
      'chapters.txt',
      'chapters.vtt',
      'm4a',
      'mid',
      'mp3',
      'script.md',
      'srt',
      'timeline.json',
      'transcript.md',
      'vtt',
      'wav',
    ];
    expect(readdirSync(folder).sort()).toEqual(
      ['kept', ...['html', ...beside].map(ending => `lesson.${ending}`)].sort(),
    );
    const timeline = JSON.parse(readFileSync(join(folder, 'lesson.timeline.json'), 'utf8')) as {
      readonly seconds: number;
    };
    // 44 bytes of header, two channels of 16 bits at 48 kHz.
    expect((statSync(join(folder, 'lesson.wav')).size - 44) / 4).toBe(Math.round(timeline.seconds * 48_000));
  });

  it('knows the words of --also and what a loudness is', async () => {
    const also = await barwise(['build', good, '--out', folder, '--also', 'srt,wave']);
    expect(also.code).toBe(2);
    expect(also.stderr).toContain('error R0008: `--also` knows no `wave`');
    const loud = await barwise(['build', good, '--out', folder, '--loudness', 'loud']);
    expect(loud.code).toBe(2);
    expect(loud.stderr).toContain('error R0008: `--loudness loud` is no loudness');
    expect(readdirSync(folder)).toEqual([]);
  });

  it('gives the same bytes again', async () => {
    const [a, b] = [join(folder, 'a'), join(folder, 'b')];
    await barwise(['build', good, '--out', a]);
    await barwise(['build', good, '--out', b]);
    const [one, two] = [a, b].map(out => readFileSync(join(out, 'lesson.html')));
    expect(one?.equals(two ?? Buffer.alloc(0))).toBe(true);
  });

  it('builds a lesson with a claim that fails, and says so', async () => {
    const file = `${root}tests/fixtures/check/fails-and-others/lesson.yaml`;
    const { code, stdout, stderr } = await barwise(['build', file, '--out', folder]);
    expect(code).toBe(1);
    expect(stdout).toContain('fails C0204');
    expect(stderr.replace(/\s+/g, ' ')).toContain('marked as a draft: 5 claims fail');
    expect(stderr).toMatch(/why +line \d+: bar 2 is ii\n/);
    expect(readdirSync(folder).sort()).toEqual(['lesson.html', 'lesson.vtt']);
  });

  it.each([
    ['a lesson', ['--out']],
    ['a course', ['--site']],
  ])('builds nothing out of %s with a claim that fails where that is forbidden', async (_, option) => {
    const out = join(folder, 'strictly');
    const file = `${root}tests/fixtures/check/fails-and-others/lesson.yaml`;
    const { code, stderr } = await barwise(['build', file, '--strict', ...option, out]);
    expect(code).toBe(1);
    expect(stderr).toMatch(/^error R0019: not every claim/);
    expect(existsSync(out) ? readdirSync(out) : []).toEqual([]);
  });

  it('builds nothing out of a lesson with errors', async () => {
    const out = join(folder, 'out');
    const file = `${root}tests/fixtures/check/lesson-errors-and-claims/lesson.yaml`;
    const { code, stdout, stderr } = await barwise(['build', file, '--out', out]);
    expect(code).toBe(1);
    expect(stdout).toContain('error L0101');
    expect(stderr).toContain('R0013');
    expect(existsSync(out)).toBe(false);
  });

  it('builds nothing out of a missing lesson', async () => {
    const { code, stdout } = await barwise(['build', 'missing.yaml', '--out', folder]);
    expect(code).toBe(2);
    expect(stdout).toContain('error R0001: there is no file `missing.yaml`');
    expect(readdirSync(folder)).toEqual([]);
  });

  it('says where it cannot write', async () => {
    writeFileSync(join(folder, 'file'), 'text');
    const out = join(folder, 'file');
    const { code, stdout, stderr } = await barwise(['build', good, '--out', out], {
      env: { COLUMNS: '300' },
    });
    expect({ code, stdout, stderr }).toEqual({
      code: 2,
      stdout: '',
      stderr: `error R0006: \`${out}\` cannot be written: a file stands where a folder is needed\n  help  nothing was changed there; choose another folder with \`--out\`\n`,
    });
    expect(readFileSync(out, 'utf8')).toBe('text');
  });
});
