/**
 * `barwise check` as a process: lesson and score of each folder of tests/fixtures/check beside everything that is printed.
 * Refresh with `npx vitest run tests/cli/check.test.ts -u` and read the difference.
 */
import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { readdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { barwise, root } from './barwise.js';

const fixtures = `${root}tests/fixtures/check/`;
const names = readdirSync(fixtures).sort();

describe('a lesson, and what `check` says about it', () => {
  it('has its cases', () => {
    expect(names).toHaveLength(12);
  });

  it.each(names)('%s, for people', async name => {
    const { code, stdout, stderr } = await barwise(['check', 'lesson.yaml'], { cwd: fixtures + name });
    expect(stderr).toBe('');
    await expect(`${stdout}\nexit ${code}\n`).toMatchFileSnapshot(`${fixtures}${name}/expected.txt`);
  });

  it.each(names)('%s, for programs', async name => {
    const { code, stdout } = await barwise(['check', '--format', 'json', 'lesson.yaml'], {
      cwd: fixtures + name,
    });
    expect(JSON.parse(stdout)).toMatchObject({ barwise: 1, lessons: [{ file: 'lesson.yaml' }] });
    await expect(stdout).toMatchFileSnapshot(`${fixtures}${name}/expected.json`);
    expect([0, 1]).toContain(code);
  });
});

describe('verdicts and exit codes', () => {
  const at = (name: string): string => `${fixtures}${name}/lesson.yaml`;

  it.each([
    ['0 where everything holds, strictly', ['all-hold'], ['--strict'], 0],
    ['1 where one of several fails', ['all-hold', 'fails-and-others'], [], 1],
  ])('exit %s', async (_, lessons, options, code) => {
    expect((await barwise(['check', ...options, ...lessons.map(at)])).code).toBe(code);
  });

  it('exit 1 with --strict alone where a claim about a silent bar is undecided', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'barwise-strict-'));
    copyFileSync(`${fixtures}all-hold/garden-gate.abc`, join(folder, 'garden-gate.abc'));
    writeFileSync(
      join(folder, 'lesson.yaml'),
      'format: 1\ntitle: T\nscore: garden-gate.abc\nhome: G major\nsteps:\n  - title: S\n    claims: [bar 9 is I]\n',
    );
    const run = (...options: string[]) => barwise(['check', ...options, 'lesson.yaml'], { cwd: folder });
    expect([(await run()).code, (await run('--strict')).code]).toEqual([0, 1]);
    rmSync(folder, { recursive: true });
  });
});

describe('files that cannot be checked', () => {
  let folder = '';
  const head = 'format: 1\ntitle: T\nhome: G major\nsteps:\n  - title: S\n    claims: [bar 1 is I]\n';

  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'barwise-files-'));
    const write = (name: string, content: string | Uint8Array): void => {
      writeFileSync(join(folder, name), content);
    };
    for (const inner of ['empty', 'inside', 'private', 'a-folder.abc']) mkdirSync(join(folder, inner));
    copyFileSync(`${fixtures}all-hold/garden-gate.abc`, join(folder, 'private/gate.abc'));
    copyFileSync(`${fixtures}all-hold/garden-gate.abc`, join(folder, 'inside/gate.abc'));
    symlinkSync(join(folder, 'private/gate.abc'), join(folder, 'inside/link.abc'));
    write('latin1.yaml', Buffer.from('format: 1\ntitle: café\n', 'latin1'));
    write('utf16.yaml', Buffer.from('\uFEFFformat: 1\n', 'utf16le'));
    write('picture.yaml', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 0, 0, 0x0d, 0xff]));
    write('own-replacement.yaml', Buffer.concat([Buffer.from('a: \uFFFD\nb: \n'), Buffer.from([0xe9])]));
    write('large.yaml', '');
    truncateSync(join(folder, 'large.yaml'), 50_000_000);
    write('large.abc', '');
    truncateSync(join(folder, 'large.abc'), 50_000_000);
    write('latin1.abc', Buffer.from('X:1\nT:café\nK:C\nC|\n', 'latin1'));
    write('score-large.yaml', `score: large.abc\n${head}`);
    write('score-latin1.yaml', `score: latin1.abc\n${head}`);
    write('score-folder.yaml', `score: a-folder.abc\n${head}`);
    write('inside/outside.yaml', `score: ../private/gate.abc\n${head}`);
    write('inside/linked.yaml', `score: link.abc\n${head}`);
    write('inside/absolute.yaml', `score: ${join(folder, 'private/gate.abc')}\n${head}`);
    write('inside/round-about.yaml', `score: ../inside/gate.abc\n${head}`);
    write('inside/nowhere.yaml', `score: ../../nowhere.abc\n${head}`);
  });
  afterAll(() => {
    rmSync(folder, { recursive: true });
  });

  const run = (...words: string[]) => barwise(['check', ...words], { cwd: folder });

  it.each([
    [
      'a missing lesson',
      'missing.yaml',
      'error R0001: there is no file `missing.yaml`\n  help  in that folder lie `large.yaml`, `latin1.yaml`, `own-replacement.yaml`,\n        `picture.yaml`, `score-folder.yaml` and others\n',
    ],
    ['a lesson below a file', 'latin1.yaml/x.yaml', 'error R0001: there is no file `latin1.yaml/x.yaml`\n'],
    [
      'a lesson of 50 MB',
      'large.yaml',
      'error R0003: `large.yaml` has 50.0 MB, and files up to 1 MB are read\n',
    ],
    [
      'a lesson in Latin-1',
      'latin1.yaml',
      'error R0004: `latin1.yaml` is not UTF-8 text\n  why   line 2 has a character in another encoding\n  help  save it as UTF-8 in your editor\n',
    ],
    [
      'a lesson in UTF-16',
      'utf16.yaml',
      'error R0004: `utf16.yaml` is not UTF-8 text\n  why   it begins like UTF-16\n  help  save it as UTF-8 in your editor\n',
    ],
    [
      'a picture',
      'picture.yaml',
      'error R0004: `picture.yaml` is not UTF-8 text\n  why   it looks like a program or a picture, not like text\n  help  save it as UTF-8 in your editor\n',
    ],
    [
      'a lesson that holds a replacement character before its fault',
      'own-replacement.yaml',
      'error R0004: `own-replacement.yaml` is not UTF-8 text\n  why   line 3 has a character in another encoding\n  help  save it as UTF-8 in your editor\n',
    ],
  ])('%s', async (_, file, message) => {
    const { code, stdout, stderr } = await run(file);
    expect({ code, stdout, stderr }).toEqual({
      code: 2,
      stdout: `${message}\n${file}: no claim was checked; 1 error\n`,
      stderr: '',
    });
  });

  it('a folder without lessons', async () => {
    expect(await run('empty')).toEqual({
      code: 2,
      stdout: 'no lesson: no claims\n',
      stderr:
        'error R0011: there is no lesson in `empty`\n  help  looked for files that end in .yaml or .yml\n',
    });
  });

  it.each([
    ['a score of 50 MB', 'score-large.yaml', 'R0003: `large.abc` has 50.0 MB, and files up to 1 MB are read'],
    ['a score in Latin-1', 'score-latin1.yaml', 'R0004: `latin1.abc` is not UTF-8 text'],
    ['a folder as score', 'score-folder.yaml', 'R0002: `a-folder.abc` is a folder'],
    [
      'a score outside the folder',
      'inside/outside.yaml',
      "R0005: `../private/gate.abc` lies outside the lesson's folder",
    ],
    [
      'a score outside that is not there',
      'inside/nowhere.yaml',
      "R0005: `../../nowhere.abc` lies outside the lesson's folder",
    ],
    ['a link that leads outside', 'inside/linked.yaml', "R0005: `link.abc` lies outside the lesson's folder"],
  ])('%s', async (_, file, message) => {
    const { code, stdout } = await run(file);
    expect(code).toBe(1);
    expect(stdout.slice(0, stdout.indexOf('   1 | score:')).replace(/\n/g, ' ')).toBe(
      `${file}:1:8: error ${message} `,
    );
    expect(stdout.trimEnd().split('\n').at(-1)).toBe(
      `${file}: 1 claim: 0 hold, 1 could not be checked; 1 error`,
    );
  });

  it('an absolute path outside the folder', async () => {
    const { code, stdout } = await barwise(['check', '--format', 'json', 'inside/absolute.yaml'], {
      cwd: folder,
    });
    expect(code).toBe(1);
    expect(JSON.parse(stdout)).toMatchObject({
      lessons: [{ diagnostics: [{ code: 'R0005' }], claims: [{ verdict: 'undecided', code: 'L0503' }] }],
    });
  });

  it.each(['outside', 'linked', 'absolute'])('%s, with --allow-outside', async name => {
    expect((await run('--allow-outside', `inside/${name}.yaml`)).code).toBe(0);
  });

  it('a way out and back in again is inside', async () => {
    expect((await run('inside/round-about.yaml')).code).toBe(0);
  });

  it('goes on with the other lessons', async () => {
    const { code, stdout } = await run('--format', 'json', 'missing.yaml', 'inside/round-about.yaml');
    expect(code).toBe(2);
    expect(JSON.parse(stdout)).toMatchObject({
      lessons: [
        { file: 'missing.yaml', diagnostics: [{ code: 'R0001' }], claims: [] },
        { file: 'inside/round-about.yaml', diagnostics: [], claims: [{ verdict: 'holds' }] },
      ],
      summary: { lessons: 2, claims: 1, holds: 1, errors: 1 },
    });
  });

  it('takes every lesson of a folder, in the order of their names', async () => {
    const { stdout } = await run('--format', 'json', 'inside', '--allow-outside');
    const { lessons } = JSON.parse(stdout) as { readonly lessons: readonly { readonly file: string }[] };
    expect(lessons.map(({ file }) => file)).toEqual(
      ['absolute', 'linked', 'nowhere', 'outside', 'round-about'].map(name => join('inside', `${name}.yaml`)),
    );
  });
});
