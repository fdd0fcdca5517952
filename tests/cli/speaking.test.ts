/** Who speaks: takes, the built-in voice, a program of the user's; and what is spoken again when a lesson changes. */
import { spawnSync } from 'node:child_process';
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { cacheFolder } from '../../src/workshop/index.js';
import { commandWords } from '../../src/cli/command-words.js';
import { wavFrames, wavHeader } from '../../src/sound/index.js';
import { barwise } from './barwise.js';

const score = 'X:1\nT:Two bars\nM:4/4\nL:1/4\nQ:1/4=120\nK:C\nC E G c | c4 |]\n';
const lesson = (second = 'And now it rests.'): string => `format: 1
title: Two bars
score: two-bars.abc
home: C major
steps:
  - title: Up
    script:
      - play: 1
      - say: Up it goes. Note by note.
  - title: Rest
    script:
      - say: ${second}
      - play: 2
`;

/** A program that speaks: a second of a tone for every sentence, and a line in a book for each. */
const program = `const text = require('fs').readFileSync(0, 'utf8');
require('fs').appendFileSync(__dirname + '/spoken.txt', process.argv[2] + ' ' + text);
process.stdout.write(require('fs').readFileSync(__dirname + '/tone.wav'));
`;
const tone = Float32Array.from({ length: 16_000 }, (_, i) => 0.3 * Math.sin(i / 5));
const toneFile = Buffer.concat([wavHeader(tone.length, 1, 16_000), wavFrames(tone, 1)]);

let folder: string;
let command: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'barwise-test-'));
  const own = join(folder, 'own voice');
  await mkdir(own);
  await writeFile(join(own, 'speak.cjs'), program);
  await writeFile(join(own, 'tone.wav'), toneFile);
  await writeFile(join(folder, 'two-bars.abc'), score);
  command = `"${process.execPath}" "${join(own, 'speak.cjs')}" {pace}`;
});
beforeEach(async () => {
  await writeFile(join(folder, 'two-bars.yaml'), lesson());
  await writeFile(join(folder, 'own voice', 'spoken.txt'), '');
});
afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
});

const spoken = async (): Promise<readonly string[]> =>
  (await readFile(join(folder, 'own voice', 'spoken.txt'), 'utf8')).split('\n').slice(0, -1);
const rehearse = (...more: readonly string[]) =>
  barwise(['rehearse', 'two-bars.yaml', '--spoken', ...more], { cwd: folder, env: { COLUMNS: '200' } });
const build = (out: string, ...more: readonly string[]) =>
  barwise(['build', 'two-bars.yaml', '--out', out, '--cache', 'cache', ...more], { cwd: folder });

describe('a program of the user as the voice', () => {
  it('gets each sentence at the pace of the lesson, and its sound makes the times', async () => {
    const { code, stdout } = await rehearse('--voice-command', command, '--cache', 'one');
    expect(code).toBe(0);
    expect(await spoken()).toEqual(['150 up it goes.', '150 note by note.', '150 and now it rests.']);
    // Two sentences of a second and the pause between them; then one.
    expect(stdout).toMatch(/ 2\.[34] s {2}say Up it goes\. Note by note\./u);
    expect(stdout).toMatch(/ 1\.0 s {2}say And now it rests\./u);
  });

  it('is replaced by the built-in voice when it fails or is not there, with the reason', async () => {
    const failing = await rehearse('--voice-command', `"${process.execPath}" -e "process.exit(4)"`, '--cache', 'two'); // prettier-ignore
    expect(failing.code).toBe(0);
    expect(failing.stdout).toMatch(/warning T0033: the voice failed, .*stopped with 4/u);
    expect(failing.stdout).not.toMatch(/~/u);
    const absent = await barwise(['rehearse', 'two-bars.yaml', '--spoken', '--voice', 'espeak-ng', '--cache', 'two'], { cwd: folder, env: { COLUMNS: '200', PATH: folder } }); // prettier-ignore
    expect(absent.code).toBe(0);
    expect(absent.stdout).toMatch(/warning T0033: .*`espeak-ng` could not be started/u);
  });

  it('is stopped when it takes too long', async () => {
    const { stdout } = await rehearse(
      '--voice-command', `"${process.execPath}" -e "setTimeout(() => undefined, 60000)"`, '--voice-timeout', '0.5', '--cache', 'three',
    ); // prettier-ignore
    expect(stdout).toMatch(/warning T0033: .*took longer than 0\.5 s/u);
  });

  const hasEspeak = spawnSync('espeak-ng', ['--version']).status === 0;
  it.skipIf(!hasEspeak)(
    hasEspeak ? 'can be espeak-ng' : 'NOT TESTED HERE: espeak-ng is not installed',
    async () => {
      const { code, stdout } = await rehearse('--voice', 'espeak-ng', '--cache', 'four');
      expect(code).toBe(0);
      expect(stdout).not.toContain('T0033');
      expect(stdout).toMatch(/ \d\.\d s {2}say And now it rests\./u);
    },
  );

  it.each([
    ['a voice that is none', ['--voice', 'built_in'], 'there is no voice `built_in`'],
    ['a time that is none', ['--voice-timeout', 'long'], '`--voice-timeout long` is no time'],
    ['an empty command', ['--voice-command', ' '], '`--voice-command` names no program'],
  ])('refuses %s', async (_, words, message) => {
    for (const run of [await rehearse(...words), await build('refused', ...words)]) {
      expect(run.code).toBe(2);
      expect(run.stderr).toContain(`error R0008: ${message}`);
    }
    expect(await readdir(folder)).not.toContain('refused');
  });
});

describe('takes', () => {
  it('are heard while rehearsing too', async () => {
    await mkdir(join(folder, 'takes'), { recursive: true });
    await writeFile(join(folder, 'takes', '2.1.wav'), toneFile);
    const { stdout } = await rehearse('--voice-command', command, '--cache', 'five');
    await rm(join(folder, 'takes'), { recursive: true });
    expect(await spoken()).toEqual(['150 up it goes.', '150 note by note.']);
    expect(stdout).toMatch(/ 1\.0 s {2}say And now it rests\./u);
  });
});

describe('a folder of takes that may not be written', () => {
  it('is told of by its own name, and the walkthrough is whole', async () => {
    await mkdir(join(folder, 'takes', 'takes.json'), { recursive: true });
    await writeFile(join(folder, 'takes', '2.1.wav'), toneFile);
    const words = ['--out', 'unnoted', '--cache', 'six', '--voice-command', command];
    const { code, stderr } = await barwise(['build', 'two-bars.yaml', ...words], { cwd: folder });
    await rm(join(folder, 'takes'), { recursive: true });
    expect(stderr).toContain('warning R0017: `takes/takes.json` cannot be written beside the recordings: ');
    expect(code).toBe(0);
    expect(await readdir(join(folder, 'unnoted'))).toContain('two-bars.html');
  });
});

describe('building again', () => {
  const words = ['--voice-command', '', '--also', 'all'];
  const files = async (out: string): Promise<Readonly<Record<string, string>>> => {
    const names = (await readdir(join(folder, out))).sort();
    const entries = names.map(async name => [
      name,
      (await readFile(join(folder, out, name))).toString('base64'),
    ]);
    return Object.fromEntries(await Promise.all(entries)) as Readonly<Record<string, string>>;
  };

  const music = async (): Promise<readonly string[]> =>
    (await readdir(join(folder, 'cache'))).filter(name => name.endsWith('.music')).sort();

  it('speaks and plays only what has changed, gives what is equal to the byte, and changes what is not', async () => {
    words[1] = command;
    await build('first', ...words);
    expect(await spoken()).toHaveLength(3);
    await build('second', ...words);
    expect(await spoken()).toHaveLength(3);
    const [first, second] = [await files('first'), await files('second')];
    expect(Object.keys(first)).toHaveLength(12);
    for (const [name, bytes] of Object.entries(first))
      expect([name, second[name] === bytes]).toEqual([name, true]);

    await writeFile(join(folder, 'two-bars.yaml'), lesson('And here it stays.'));
    const played = await music();
    expect(played).toHaveLength(2);
    await build('third', ...words);
    expect(await music()).toEqual(played);
    expect((await spoken()).slice(3)).toEqual(['150 and here it stays.']);
    const third = await files('third');
    expect(third['two-bars.srt']).not.toBe(first['two-bars.srt']);
    expect(third['two-bars.mid']).toBe(first['two-bars.mid']);

    // Another passage in the first step: one more is rendered, and all is as if it had been built for the first time.
    await writeFile(join(folder, 'two-bars.yaml'), lesson().replace('play: 1', 'play: 1-2'));
    await build('fourth', ...words);
    expect(await music()).toHaveLength(3);
    expect(await spoken()).toHaveLength(4);
    await rm(join(folder, 'cache'), { recursive: true });
    await build('fifth', ...words);
    const [fourth, fifth] = [await files('fourth'), await files('fifth')];
    expect(fourth['two-bars.wav']).not.toBe(first['two-bars.wav']);
    for (const [name, bytes] of Object.entries(fourth))
      expect([name, fifth[name] === bytes]).toEqual([name, true]);
  });
});

// XDG Base Directory Specification 0.8; the places of the other systems from memory.
describe('the folder of the cache', () => {
  it.each([
    [{}, 'linux', '/home/ada', '/home/ada/.cache/barwise/speech'],
    [{ XDG_CACHE_HOME: '/fast' }, 'linux', '/home/ada', '/fast/barwise/speech'],
    [{ XDG_CACHE_HOME: 'relative' }, 'linux', '/home/ada', '/home/ada/.cache/barwise/speech'],
    [{}, 'darwin', '/Users/ada', '/Users/ada/Library/Caches/barwise/speech'],
    [{ LOCALAPPDATA: '/local' }, 'win32', '/ada', '/local/barwise/speech'],
  ])('%o on %s', (environment, system, home, expected) => {
    expect(cacheFolder(environment, system, home).replaceAll('\\', '/')).toBe(expected);
  });
});

// POSIX shell, 2.2: quotes keep blanks; nothing else of a shell is read.
describe('the words of a command', () => {
  it.each([
    ['speak --pace {pace}', ['speak', '--pace', '{pace}']],
    [`"my voice" -e 'one two' ""`, ['my voice', '-e', 'one two', '']],
    ['  ', []],
  ])('%s', (typed, expected) => {
    expect(commandWords(typed)).toEqual(expected);
  });
});
