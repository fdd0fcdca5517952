/** The command line itself: names, options, help, colour, width. */
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { barwise, commandLine, root } from './barwise.js';

const bad = 'tests/fixtures/check/fails-and-others/lesson.yaml';

describe('the command line', () => {
  it('shows its help', async () => {
    const { code, stdout, stderr } = await barwise(['--help']);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    await expect(stdout).toMatchFileSnapshot(`${root}tests/fixtures/cli/help.txt`);
    expect((await barwise(['help'])).stdout).toBe(stdout);
    expect(await barwise([])).toEqual({ code: 2, stdout: '', stderr: stdout });
  });

  it('shows the help of a command', async () => {
    const { code, stdout } = await barwise(['check', '--help']);
    expect(code).toBe(0);
    await expect(stdout).toMatchFileSnapshot(`${root}tests/fixtures/cli/help-check.txt`);
    expect((await barwise(['help', 'check'])).stdout).toBe(stdout);
  });

  it('says its version', async () => {
    expect(await barwise(['--version'])).toEqual({ code: 0, stdout: '0.1.0\n', stderr: '' });
  });

  it.each([
    [
      'a misspelt command',
      ['chekc', 'x.yaml'],
      'error R0007: there is no command `chekc`\n  help  did you mean `check`?\n',
    ],
    [
      'a command that is like no other',
      ['fly'],
      'error R0007: there is no command `fly`\n  help  commands: `check`, `analyse`, `build`, `rehearse`, `draft`, `studio`,\n        `explain`\n',
    ],
    [
      'help about nothing',
      ['help', 'analyze'],
      'error R0007: there is no command `analyze`\n  help  did you mean `analyse`?\n',
    ],
    [
      'an option without a command',
      ['--strict'],
      'error R0008: there is no option `--strict`\n  help  commands: `check`, `analyse`, `build`, `rehearse`, `draft`, `studio`,\n        `explain`\n',
    ],
    [
      'a misspelt option',
      ['check', 'x.yaml', '--srict'],
      'error R0008: `check` has no option `--srict`\n  help  did you mean `--strict`?\n',
    ],
    [
      'an unknown short option',
      ['check', '-x', 'x.yaml'],
      'error R0008: `check` has no option `-x`\n  help  see `barwise check --help`\n',
    ],
    [
      'an option without its value',
      ['check', 'x.yaml', '--format'],
      'error R0008: `--format` needs a value\n  help  write `--format FORMAT`\n',
    ],
    [
      'a value for a switch',
      ['check', 'x.yaml', '--strict=yes'],
      'error R0008: `--strict` takes no value\n  help  write `--strict` alone\n',
    ],
    [
      'a misspelt format',
      ['check', 'x.yaml', '--format', 'jsn'],
      'error R0008: there is no format `jsn`\n  help  did you mean `json`?\n',
    ],
    [
      'an unknown format',
      ['analyse', 'x.abc', '--format', 'picture'],
      'error R0008: there is no format `picture`\n  help  formats: `text`, `json`, `html`\n',
    ],
    [
      'no lesson',
      ['check'],
      'error R0009: `check` needs LESSON...\n  help  usage: barwise check LESSON...\n',
    ],
    [
      'too many lessons',
      ['build', 'a.yaml', 'b.yaml', '--out', 'x'],
      'error R0009: `build --out` makes one lesson\n  help  for several write `build --site DIR LESSON...`\n',
    ],
    [
      'no output folder',
      ['build', 'a.yaml'],
      'error R0014: `build` needs `--out DIR`\n  help  name the folder to write into: `--out walkthrough`\n',
    ],
    [
      'an unknown code',
      ['explain', 'L010'],
      'error R0012: there is no finding `L010`\n  help  did you mean `L0010`?\n',
    ],
    [
      'a code like no other',
      ['explain', '__proto__'],
      'error R0012: there is no finding `__proto__`\n  help  `barwise explain` lists all codes\n',
    ],
  ])('%s', async (_, words, stderr) => {
    expect(await barwise(words)).toEqual({ code: 2, stdout: '', stderr });
  });

  it('explains a code in any case', async () => {
    const { code, stdout } = await barwise(['explain', 'l0004']);
    expect(code).toBe(0);
    await expect(stdout).toMatchFileSnapshot(`${root}tests/fixtures/cli/explain-L0004.txt`);
  });

  it('lists every code', async () => {
    const { stdout } = await barwise(['explain']);
    const lines = stdout.trimEnd().split('\n');
    expect(lines.length).toBeGreaterThan(80);
    expect(lines.filter(line => !/^[LSHCTR]\d{4} {2}[a-zA-Z0-9-]+$/.test(line))).toEqual([]);
    expect(lines).toEqual([...lines].sort());
  });
});

describe('the terminal', () => {
  it('gets no colour where it is none, unless asked', async () => {
    expect((await barwise(['check', bad])).stdout).not.toContain('\u001B');
  });

  // `script` (util-linux) runs a command in a terminal of its own.
  it.runIf(existsSync('/usr/bin/script'))(
    'gets colour where it is one, unless NO_COLOR says otherwise',
    () => {
      const inTerminal = (env: Readonly<Record<string, string>>): string =>
        execFileSync('/usr/bin/script', ['-qec', commandLine(['explain', 'L0101']), '/dev/null'], {
          encoding: 'utf8',
          env: { PATH: process.env['PATH'], TERM: 'xterm-256color', ...env },
        });
      expect(inTerminal({})).toContain('\u001B[1mL0101 unknown-key\u001B[0m');
      expect(inTerminal({ NO_COLOR: '1' })).not.toContain('\u001B');
      expect(inTerminal({ TERM: 'dumb' })).not.toContain('\u001B');
    },
  );

  it('is kept to its width', async () => {
    const cwd = `${root}tests/fixtures/check/fails-and-others`;
    const narrow = await barwise(['check', 'lesson.yaml'], { cwd, env: { COLUMNS: '50' } });
    const wide = await barwise(['check', 'lesson.yaml'], { cwd, env: { COLUMNS: '200' } });
    expect(Math.max(...narrow.stdout.split('\n').map(line => line.length))).toBeLessThanOrEqual(50);
    expect(wide.stdout.split('\n').length).toBeLessThan(narrow.stdout.split('\n').length);
  });
});
