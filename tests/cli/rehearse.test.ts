/** `barwise rehearse`: the running order of a lesson, from the command line. */
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { barwise } from './barwise.js';

const score = 'X:1\nT:Two bars\nM:4/4\nL:1/4\nQ:1/4=120\nK:C\nC E G c | c4 |]\n';
const lesson = `format: 1
title: Two bars
score: two-bars.abc
home: C major
steps:
  - title: Up
    script:
      - play: 1-2
      - wait: 0.2 s
      - say: Up it goes.
  - title: Down
    script:
      - say: And no more.
`;

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'barwise-test-'));
  await writeFile(join(folder, 'two-bars.abc'), score);
  await writeFile(join(folder, 'two-bars.yaml'), lesson);
});
afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
});

describe('rehearse', () => {
  it('prints the running order and remarks on the pace', async () => {
    const { code, stdout, stderr } = await barwise(['rehearse', 'two-bars.yaml'], { cwd: folder });
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toMatchInlineSnapshot(`
      "  1  Up
             0:00     6.5 s  the whole step
             0:00     4.0 s  play bars 1–2
             0:04     0.2 s  wait
             0:04    ~1.2 s  say Up it goes.

        2  Down
             0:06     2.7 s  the whole step
             0:06    ~1.2 s  say And no more.

      the lesson lasts about 0:09: music 43 %, talk 26 %

      two-bars.yaml:8:9: note T0024: there is only 0.2 s of silence after this example
         8 |       - play: 1-2
           |         ^^^^^^^^^
        why   1 s or more let it be heard on its own
        help  make the \`wait\` longer, or remove it: without one the silence is added
      "
    `);
  });

  it('limits itself to a step', async () => {
    const { code, stdout } = await barwise(['rehearse', 'two-bars.yaml', '--step', '2'], { cwd: folder });
    expect(code).toBe(0);
    expect(stdout).toContain('  2  Down');
    expect(stdout).not.toContain('  1  Up');
    // The short silence stands in the other step.
    expect(stdout).not.toContain('T0024');
    const first = await barwise(['rehearse', 'two-bars.yaml', '--step', '1'], { cwd: folder });
    expect(first.stdout).toContain('note T0024');
  });

  it('measures the words when it is asked to speak', async () => {
    const { code, stdout } = await barwise(['rehearse', 'two-bars.yaml', '--spoken'], { cwd: folder });
    expect(code).toBe(0);
    expect(stdout).toMatch(/ \d\.\d s {2}say Up it goes\./u);
    expect(stdout).not.toMatch(/~/u);
    // What was planned are the times of the running order without a voice, above.
    expect(stdout).toMatch(/ \d\.\d s {2}the whole step \(planned 6\.5 s\)\n/u);
    expect(stdout).toMatch(/the lesson lasts \d:\d\d \(planned 0:09\): music/u);
  });

  it('refuses a step that the lesson does not have, and a lesson with errors', async () => {
    expect(await barwise(['rehearse', 'two-bars.yaml', '--step', '3'], { cwd: folder })).toEqual({
      code: 2,
      stdout: '',
      stderr: 'error R0008: there is no step `3`\n  help  the lesson has the steps 1 to 2\n',
    });
    await writeFile(join(folder, 'broken.yaml'), lesson.replace('play: 1-2', 'play: 1-9'));
    const { code, stdout } = await barwise(['rehearse', 'broken.yaml'], { cwd: folder });
    expect(code).toBe(1);
    expect(stdout).toMatch(/error L\d{4}/u);
  });
});
