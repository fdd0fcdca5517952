/** The program dies in the middle of a save, the disk is full, the folder may not be written: nothing is lost, and the words say what is so. */
import { execFileSync, spawn } from 'node:child_process';
import {
  chmodSync,
  chownSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  realpathSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import type { Answer, Answers } from '../../src/bridge/index.js';
import { journalIn } from '../../src/workshop/files/journal.js';
import { bench, root } from './bench.js';

const cleaning: (() => void)[] = [];
afterEach(() => {
  for (const clean of cleaning.splice(0).reverse()) clean();
});

interface Place {
  readonly folder: string;
  readonly lesson: string;
  readonly state: string;
}

function place(): Place {
  const base = realpathSync(mkdtempSync(join(tmpdir(), 'barwise-mishap-')));
  cleaning.push(() => {
    rmSync(base, { recursive: true, force: true });
  });
  const [folder, state] = [join(base, 'lessons'), join(base, 'state')];
  for (const made of [folder, state]) mkdirSync(made);
  const lesson = join(folder, 'lesson.yaml');
  copyFileSync(join(root, 'sample-lessons/mill-road.yaml'), lesson);
  return { folder, lesson, state };
}

type Saved = Answer<Answers['save']>;

interface Saver {
  /** What every save was answered, once the program has ended. */
  readonly ended: Promise<readonly Saved[]>;
  readonly answers: readonly Saved[];
  readonly kill: () => void;
}

function saver({ folder, lesson, state }: Place, rounds: number, user?: number): Saver {
  const child = spawn(
    process.execPath,
    [
      '--import',
      join(root, 'node_modules/tsx/dist/loader.mjs'),
      join(root, 'tests/workshop/save-in-a-loop.ts'),
      folder,
      lesson,
      state,
      String(rounds),
    ],
    { stdio: ['ignore', 'pipe', 'pipe'], ...(user === undefined ? {} : { uid: user, gid: user }) },
  );
  const answers: Saved[] = [];
  let [waiting, errors] = ['', ''];
  child.stderr.on('data', part => (errors += String(part)));
  child.stdout.on('data', part => {
    const lines = (waiting + String(part)).split('\n');
    waiting = lines.pop() ?? '';
    answers.push(...lines.map(line => JSON.parse(line) as Saved));
  });
  const ended = new Promise<readonly Saved[]>((done, failed) => {
    child.on('close', (code, signal) => {
      if (code === 0 || signal === 'SIGKILL') done(answers);
      else failed(new Error(errors));
    });
  });
  return {
    ended,
    answers,
    kill: () => {
      child.kill('SIGKILL');
    },
  };
}

const wholeTexts = (): readonly string[] => [
  readFileSync(join(root, 'sample-lessons/mill-road.yaml'), 'utf8'),
  ...['even', 'odd'].map(word => `title: ${word}\n`.repeat(70_000)),
];

const parts = (folder: string): readonly string[] =>
  readdirSync(folder).filter(name => name.endsWith('.part'));

describe('a program that is killed while it saves', () => {
  it('leaves the former or the new text, whole, and the unsaved text', async () => {
    const texts = wholeTexts();
    const here = place();
    for (let round = 0; round < 5; round++) {
      const running = saver(here, Infinity);
      while (running.answers.length === 0) await new Promise(done => setTimeout(done, 5));
      // Saves follow one another at once, so that the blow falls anywhere in one.
      await new Promise(done => setTimeout(done, round * 11));
      running.kill();
      await running.ended;
      const kept = await journalIn(join(here.state, 'journal')).find(here.lesson);
      expect(texts.indexOf(readFileSync(here.lesson, 'utf8'))).toBeGreaterThanOrEqual(0);
      expect(kept === undefined || texts.includes(kept.text)).toBe(true);
      // A text that was on its way to the file is kept whole elsewhere.
      if (parts(here.folder).length > 0) expect(kept).toBeDefined();
      for (const name of parts(here.folder)) rmSync(join(here.folder, name));
    }
  });

  it('has its leftovers swept when a lesson beside them is opened later', async () => {
    const { again, folder, lesson, state, get } = await bench();
    const { stamp } = await get('open', { path: lesson });
    await get('journal', {
      path: lesson,
      text: 'title: unsaved\n',
      ...(stamp === undefined ? {} : { base: stamp }),
    });
    const hours = (count: number): Date => new Date(Date.now() - count * 3_600_000);
    const leave = (path: string, age: Date): string => {
      writeFileSync(path, 'half a tex');
      utimesSync(path, age, age);
      return path;
    };
    const old = [
      leave(join(folder, '.mill-road.yaml.0123456789ab.part'), hours(2)),
      leave(join(state, 'journal', '.0123.json.0123456789ab.part'), hours(2)),
    ];
    mkdirSync(join(folder, '.export-0123456789ab.part'));
    old.push(leave(join(folder, '.export-0123456789ab.part', 'page.html'), hours(2)));
    utimesSync(join(folder, '.export-0123456789ab.part'), hours(2), hours(2));
    const others = [
      leave(join(folder, '.mill-road.yaml.ba9876543210.part'), hours(0.5)),
      leave(join(folder, 'video.part'), hours(2)),
      leave(join(folder, '.video.mp4.part'), hours(2)),
    ];
    const later = await again();
    await later.get('begin', {});
    expect((await later.get('open', { path: lesson })).unsaved?.text).toBe('title: unsaved\n');
    expect(old.filter(existsSync)).toEqual([]);
    expect(others.filter(existsSync)).toEqual(others);
  });
});

const isRoot = process.getuid?.() === 0;
/** `nobody` on every system that these tests run on as root. */
const nobody = 65_534;

describe('a folder that may not be written', () => {
  it('keeps its file, and the text is kept elsewhere', async () => {
    const here = place();
    const { folder, lesson, state } = here;
    const before = readFileSync(lesson, 'utf8');
    for (const path of [folder, state]) chmodSync(join(path, '..'), 0o755);
    chmodSync(folder, 0o555);
    // To the superuser nothing is forbidden: as such the saving is done by another user.
    if (isRoot) chownSync(state, nobody, nobody);
    const [answer] = await saver(here, 1, isRoot ? nobody : undefined).ended;
    chmodSync(folder, 0o755);
    expect(answer).toEqual({
      ok: false,
      problem: {
        message: '`lesson.yaml` was not saved: permission is missing',
        help: 'what stood there is as it was, and your text is kept until you save it; try again or save it elsewhere',
      },
    });
    expect(readFileSync(lesson, 'utf8')).toBe(before);
    expect((await journalIn(join(state, 'journal')).find(lesson))?.text).toBe(wholeTexts()[1]);
  });
});

/** Makes a file system of a few kilobytes in a folder; `false` where this user may not. */
function mountSmall(folder: string): boolean {
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', folder], { stdio: 'ignore' });
  } catch {
    return false;
  }
  cleaning.push(() => {
    execFileSync('umount', [folder]);
  });
  return true;
}

describe('a full disk', () => {
  it('keeps its file, and the text is kept elsewhere', async context => {
    const here = place();
    const { folder, lesson, state } = here;
    if (!mountSmall(folder)) {
      context.skip('not run: a small file system can be mounted by the superuser only');
      return;
    }
    copyFileSync(join(root, 'sample-lessons/mill-road.yaml'), lesson);
    const before = readFileSync(lesson, 'utf8');
    const [answer] = await saver(here, 1).ended;
    expect(answer).toEqual({
      ok: false,
      problem: {
        message: '`lesson.yaml` was not saved: the disk is full',
        help: 'what stood there is as it was, and your text is kept until you save it; try again or save it elsewhere',
      },
    });
    expect(readFileSync(lesson, 'utf8')).toBe(before);
    expect(readdirSync(folder)).toEqual(['lesson.yaml']);
    expect((await journalIn(join(state, 'journal')).find(lesson))?.text).toBe(wholeTexts()[1]);
  });

  it('under the unsaved work does not keep the lesson from being saved', async context => {
    const here = place();
    if (!mountSmall(here.state)) {
      context.skip('not run: a small file system can be mounted by the superuser only');
      return;
    }
    const [answer] = await saver(here, 1).ended;
    expect(answer).toMatchObject({ ok: true, value: { kind: 'saved' } });
    expect(readFileSync(here.lesson, 'utf8')).toBe(wholeTexts()[1]);
  });
});
