/** Many lessons at once: folders, patterns, several processes, what changed since, and a look at every save. */
import { execFileSync, spawn } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { barwise, programWords, root } from './barwise.js';

const score = `${root}tests/fixtures/check/all-hold/garden-gate.abc`;
const lessonWith = (claim: string): string =>
  `format: 1\ntitle: T\nscore: garden-gate.abc\nhome: G major\nsteps:\n  - title: S\n    claims: [${claim}]\n`;

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'barwise-catalogue-'));
  for (const inner of ['.', 'deep', 'deep/er']) {
    mkdirSync(join(folder, inner), { recursive: true });
    copyFileSync(score, join(folder, inner, 'garden-gate.abc'));
  }
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});
const write = (name: string, text: string): void => {
  writeFileSync(join(folder, name), text);
};

interface Report {
  readonly lessons: readonly {
    readonly file: string;
    readonly claims: readonly { readonly verdict: string }[];
    readonly diagnostics: readonly { readonly code: string }[];
  }[];
}

describe('a catalogue', () => {
  it('is checked by several processes, and reported in the order of the names, 2 before 10', async () => {
    const names = Array.from({ length: 26 }, (_, index) => `lesson-${String(index)}.yaml`);
    for (const [index, name] of names.entries())
      write(name, lessonWith(`bar 1 is ${index % 2 === 0 ? 'I' : 'V'}`));
    write('lesson-7.yaml', 'format: 1\ntitle: [\n');
    const { code, stdout, stderr } = await barwise(['check', '--format', 'json', '.'], { cwd: folder });
    expect({ code, stderr }).toEqual({ code: 1, stderr: '' });
    const { lessons } = JSON.parse(stdout) as Report;
    expect(lessons.map(({ file }) => file)).toEqual(names);
    expect(lessons.map(({ claims }) => claims[0]?.verdict)).toEqual(
      names.map((name, index) =>
        name === 'lesson-7.yaml' ? undefined : index % 2 === 0 ? 'holds' : 'fails',
      ),
    );
    expect(lessons[7]?.diagnostics.map(({ code: finding }) => finding)).not.toEqual([]);
    for (const name of names) rmSync(join(folder, name));
  });

  it('is named by a pattern in quotes, and a file with such a name is a file', async () => {
    for (const name of ['one.yaml', 'deep/two.yml', 'deep/er/three.yaml', 'deep/not.txt'])
      write(name, lessonWith('bar 1 is I'));
    write('a[1].yaml', lessonWith('bar 1 is I'));
    const filesOf = async (...words: readonly string[]): Promise<readonly string[]> => {
      const { stdout } = await barwise(['check', '--format', 'json', ...words], { cwd: folder });
      return (JSON.parse(stdout) as Report).lessons.map(({ file }) => file);
    };
    expect(await filesOf('**/*.{yaml,yml}')).toEqual([
      'a[1].yaml',
      'deep/er/three.yaml',
      'deep/two.yml',
      'one.yaml',
    ]);
    expect(await filesOf('deep/*', 'one.yaml', 'a[1].yaml')).toEqual([
      'deep/two.yml',
      'one.yaml',
      'a[1].yaml',
    ]);
    expect(await barwise(['check', 'deep/*.abc'], { cwd: folder })).toEqual({
      code: 2,
      stdout: 'no lesson: no claims\n',
      stderr:
        'error R0011: no lesson is named like `deep/*.abc`\n  help  looked for files that end in .yaml or .yml\n',
    });
    for (const name of ['one.yaml', 'deep/two.yml', 'deep/er/three.yaml', 'deep/not.txt', 'a[1].yaml'])
      rmSync(join(folder, name));
  });
});

describe('--against', () => {
  it('lists the verdicts that changed since a revision, and since a report', async () => {
    const git = (...words: readonly string[]): string =>
      execFileSync('git', ['-c', 'user.name=T', '-c', 'user.email=t@t', ...words], {
        cwd: folder,
        encoding: 'utf8',
      });
    write('lesson.yaml', lessonWith('bar 1 is I, bar 8 is I'));
    git('init', '-q');
    git('add', 'lesson.yaml', 'garden-gate.abc');
    git('commit', '-q', '-m', 'before');
    const report = await barwise(['check', '--format', 'json', 'lesson.yaml'], { cwd: folder });
    write('report.json', report.stdout);

    // The score loses its first chord, the lesson gets lines before the claims and one claim more.
    write('garden-gate.abc', readFileSync(score, 'utf8').replace('[G,B,]3', '[D,F,A,]3'));
    write('lesson.yaml', `# later\n\n${lessonWith('bar 8 is I, bar 1 is I, bar 7 is V7')}`);
    const since = async (name: string): Promise<readonly string[]> => {
      const { stdout } = await barwise(['check', 'lesson.yaml', '--against', name], {
        cwd: folder,
        env: { COLUMNS: '200' },
      });
      return stdout.slice(stdout.indexOf('since ')).trimEnd().split('\n');
    };
    const changed = 'lesson.yaml:9:26: holds → fails: bar 1 is I';
    expect(await since('HEAD')).toEqual(['since HEAD: 1 verdict changed, 1 claim is new', changed]);
    expect(await since('report.json')).toEqual([
      'since report.json: 1 verdict changed, 1 claim is new',
      changed,
    ]);
    expect(git('status', '--short')).toBe(' M garden-gate.abc\n M lesson.yaml\n?? deep/\n?? report.json\n');
  });

  it('refuses what is neither', async () => {
    for (const name of ['no-such-revision', 'garden-gate.abc', '--output=x']) {
      const { code, stderr } = await barwise(['check', 'lesson.yaml', `--against=${name}`], { cwd: folder });
      expect([code, stderr.slice(0, 12)]).toEqual([2, 'error R0016:']);
    }
  });
});

describe('--watch', () => {
  it('checks again what a saved file touches, and ends with Ctrl-C', async () => {
    const own = mkdtempSync(join(tmpdir(), 'barwise-watch-'));
    copyFileSync(score, join(own, 'garden-gate.abc'));
    writeFileSync(join(own, 'one.yaml'), lessonWith('bar 1 is I'));
    const child = spawn(process.execPath, [...programWords, 'check', '--watch', '.'], { cwd: own });
    let shown = '';
    child.stdout.setEncoding('utf8').on('data', (text: string) => (shown += text));
    const until = async (words: string): Promise<void> => {
      for (let waited = 0; !shown.includes(words); waited += 50) {
        if (waited > 30_000) throw new Error(`waited for ${words} and saw ${shown}`);
        await new Promise(done => setTimeout(done, 50));
      }
      shown = '';
    };
    await until('one.yaml: 1 claim: 1 holds\n\nwatching 1 lesson; Ctrl-C ends\n');
    writeFileSync(join(own, 'garden-gate.abc'), readFileSync(score, 'utf8').replace('[G,B,]3', '[D,F,A,]3'));
    await until('one.yaml: 1 claim: 0 hold, 1 fails\n');
    writeFileSync(join(own, 'one.yaml'), lessonWith('bar 8 is I'));
    await until('one.yaml: 1 claim: 1 holds\n');
    writeFileSync(join(own, 'two.yaml'), lessonWith('bar 8 is V'));
    await until('2 lessons: 2 claims: 1 holds, 1 fails\n\nwatching 2 lessons; Ctrl-C ends\n');
    const ended = new Promise(done => child.on('close', done));
    child.kill('SIGINT');
    expect(await ended).toBe(0);
    rmSync(own, { recursive: true });
  });
});
