/** `barwise analyse` and `barwise draft` as processes, over a short piece written for the tests. */
import { copyFileSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { barwise, root } from './barwise.js';

const folder = `${root}tests/fixtures/check/all-hold`;
const fixture = (name: string): string => `${root}tests/fixtures/cli/${name}`;

describe('analyse', () => {
  it('writes a table for people', async () => {
    const { code, stdout, stderr } = await barwise(['analyse', 'garden-gate.abc'], { cwd: folder });
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    await expect(stdout).toMatchFileSnapshot(fixture('analyse.txt'));
  });

  it('writes JSON for programs, chords spelled from the bass, quarters from the start', async () => {
    const { code, stdout } = await barwise(['analyse', '--format', 'json', 'garden-gate.abc'], {
      cwd: folder,
    });
    expect(code).toBe(0);
    const { barwise: version, scores } = JSON.parse(stdout) as {
      readonly barwise: number;
      readonly scores: readonly {
        readonly file: string;
        readonly segments: readonly Record<string, unknown>[];
      }[];
    };
    expect({ version, files: scores.map(({ file }) => file) }).toEqual({
      version: 1,
      files: ['garden-gate.abc'],
    });
    // V7/V in G major is A C# E G (Open Music Theory, Applied Chords); here in root position, in the third full bar of 3/4.
    const segment = scores[0]?.segments.find(({ bar }) => bar === '3');
    expect(segment).toMatchObject({
      startQuarters: 7,
      endQuarters: 10,
      bar: '3',
      beat: 1,
      key: 'G major',
      roman: 'V7/V',
      root: 'A',
      bass: 'A',
      tones: ['A', 'C#', 'E', 'G'],
      quality: 'dominant seventh',
      inversion: 0,
      chord: 'A7',
    });
    await expect(stdout).toMatchFileSnapshot(fixture('analyse.json'));
  });

  it.each([
    [
      'a missing score',
      ['missing.abc'],
      2,
      'error R0001: there is no file `missing.abc`\n  help  in that folder lies `garden-gate.abc`\n',
    ],
    [
      'a score whose name is misspelt',
      ['garden-gat.abc'],
      2,
      'error R0001: there is no file `garden-gat.abc`\n  help  did you mean `garden-gate.abc`?\n',
    ],
    ['a score with errors', ['../score-with-errors/garden-gate.abc'], 1, undefined],
    ['a folder', ['.'], 0, undefined],
  ])('%s', async (_, words, code, stdout) => {
    const outcome = await barwise(['analyse', ...words], { cwd: folder });
    expect(outcome.code).toBe(code);
    if (stdout !== undefined) expect(outcome.stdout).toBe(stdout);
  });
});

describe('draft', () => {
  it('writes a lesson whose every claim holds', async () => {
    const { code, stdout, stderr } = await barwise(['draft', 'garden-gate.abc'], { cwd: folder });
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    await expect(stdout).toMatchFileSnapshot(fixture('draft.yaml'));

    const own = mkdtempSync(join(tmpdir(), 'barwise-draft-'));
    writeFileSync(join(own, 'draft.yaml'), stdout);
    copyFileSync(`${folder}/garden-gate.abc`, join(own, 'garden-gate.abc'));
    const checked = await barwise(['check', '--strict', '--format', 'json', 'draft.yaml'], { cwd: own });
    rmSync(own, { recursive: true });
    expect(checked.code).toBe(0);
    const { summary } = JSON.parse(checked.stdout) as { readonly summary: Readonly<Record<string, number>> };
    expect(summary['claims']).toBeGreaterThan(5);
    expect(summary['holds']).toBe(summary['claims']);
  });

  it('cannot draft what it cannot read', async () => {
    expect(await barwise(['draft', 'missing.abc'], { cwd: folder })).toEqual({
      code: 2,
      stdout: '',
      stderr: 'error R0001: there is no file `missing.abc`\n  help  in that folder lies `garden-gate.abc`\n',
    });
  });
});
