/** Takes go with their words when texts are inserted, removed or put in another order, whatever happens meanwhile. */
import { mkdirSync, readFileSync, readdirSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { finishMoves, moveTakes } from '../../src/workshop/takes/move-takes.js';
import { comeHome, planMoves } from '../../src/workshop/takes/plan-moves.js';
import type { Move, Worded } from '../../src/workshop/takes/plan-moves.js';
import { takeStore } from '../../src/workshop/takes/take-store.js';
import { bench } from './bench.js';
import { killed, takesPlace } from './takes-bench.js';
import { tone, toneWav } from './tone.js';

const worded = (words: Readonly<Record<string, string>>): readonly Worded[] =>
  Object.entries(words).map(([id, said]) => ({ id, words: said }));

describe('where takes belong', () => {
  it.each([
    ['nothing has changed', { '1.1': 'a', '1.2': 'b' }, { '1.1': 'a', '1.2': 'b' }, []],
    [
      'a text was inserted',
      { '1.1': 'new', '1.2': 'a', '1.3': 'b' },
      { '1.1': 'a', '1.2': 'b' },
      [
        ['1.1', '1.2'],
        ['1.2', '1.3'],
      ],
    ],
    [
      'a text was removed',
      { '1.1': 'b' },
      { '1.1': 'a', '1.2': 'b' },
      [
        ['1.2', '1.1'],
        ['1.1', '1.2'],
      ],
    ],
    [
      'two have changed places',
      { '1.1': 'b', '1.2': 'a' },
      { '1.1': 'a', '1.2': 'b' },
      [
        ['1.1', '1.2'],
        ['1.2', '1.1'],
      ],
    ],
    ['the words themselves were changed', { '1.1': 'other' }, { '1.1': 'a' }, []],
    ['two texts have the same words', { '1.1': 'a', '1.2': 'a' }, { '1.1': 'a' }, []],
    ['one take for two texts', { '1.1': 'x', '1.2': 'a', '1.3': 'a' }, { '1.1': 'a' }, [['1.1', '1.2']]],
    [
      'nobody knows what is in the way',
      { '1.1': 'b', '1.2': 'a' },
      { '1.1': 'a', '1.2': '' },
      [
        ['1.1', '1.2'],
        ['1.2', '1.1'],
      ],
    ],
  ] as const)('%s', (_, texts, takes, expected) => {
    expect(planMoves(worded(texts), worded(takes)).map(({ from, to }) => [from, to])).toEqual(expected);
  });

  const ids = ['1.1', '1.2', '2.1', '2.2', '3.1'];
  const some = fc
    .array(fc.tuple(fc.constantFrom(...ids), fc.constantFrom('a', 'b', 'c', 'd')), { maxLength: 8 })
    .map(pairs => worded(Object.fromEntries(pairs)));
  const applied = (takes: readonly Worded[], moves: readonly Move[]): readonly Worded[] =>
    takes.map(({ id, words }) => ({ id: moves.find(({ from }) => from === id)?.to ?? id, words }));
  const atHome = (texts: readonly Worded[], takes: readonly Worded[]): number =>
    takes.filter(({ id, words }) => texts.some(text => text.id === id && text.words === words)).length;

  it('none is lost, those at home stay, and a second time there is nothing to do', () => {
    fc.assert(
      fc.property(some, some, (texts, takes) => {
        const moves = planMoves(texts, takes);
        const after = applied(takes, moves);
        expect(new Set(after.map(({ id }) => id)).size).toBe(takes.length);
        expect(atHome(texts, after)).toBe(atHome(texts, takes) + comeHome(texts, takes));
        expect(planMoves(texts, after)).toEqual([]);
      }),
    );
  });
});

/** A folder with three takes, each of another length, one of them retaken. */
async function threeTakes(): Promise<string> {
  const takes = takesPlace();
  for (const [id, seconds] of [
    ['1.1', 0.1],
    ['1.2', 0.2],
    ['2.1', 0.3],
    ['2.1', 0.4],
  ] as const) {
    await takeStore(takes, id).add(toneWav(seconds), `words of ${id}`);
  }
  return takes;
}
const everything = (takes: string): readonly (readonly [string, string])[] =>
  readdirSync(takes, { recursive: true, encoding: 'utf8' })
    .filter(name => /\.(wav|json)$/u.test(name))
    .sort()
    .map(name => [name, readFileSync(join(takes, name)).toString('base64')]);

const round: readonly Move[] = [
  { from: '1.1', to: '1.2' },
  { from: '1.2', to: '2.1' },
  { from: '2.1', to: '1.1' },
];

describe('takes that are moved', () => {
  it('take their recordings, their words and their history along', async () => {
    const takes = await threeTakes();
    const before = new Map(everything(takes));
    await moveTakes(takes, round);
    const after = new Map(everything(takes));
    for (const { from, to } of round) {
      expect(after.get(`${to}.wav`)).toBe(before.get(`${from}.wav`));
      expect(after.get(`recordings/${to}/history.json`)).toBe(before.get(`recordings/${from}/history.json`));
    }
    expect(JSON.parse(readFileSync(join(takes, 'takes.json'), 'utf8'))).toMatchObject({
      '1.1.wav': { words: 'words of 2.1' },
      '1.2.wav': { words: 'words of 1.1' },
      '2.1.wav': { words: 'words of 1.2' },
    });
    // The retake that is now at 1.1 can still be undone.
    expect(await takeStore(takes, '1.1').undo()).toBe(true);
    expect(readFileSync(join(takes, '1.1.wav'))).toHaveLength(44 + 0.3 * 32_000);
  });

  it('arrive, wherever a program was cut short', async () => {
    const whole = await threeTakes();
    const start = everything(whole);
    await moveTakes(whole, round);
    const wanted = everything(whole);
    const ledger = JSON.parse(readFileSync(join(whole, 'takes.json'), 'utf8')) as object;
    /** Every rename that a whole move does, in its order. */
    const gathering = round.flatMap(({ from, to }) => [
      [`${from}.wav`, `recordings/.moving/${to}.wav`],
      [`recordings/${from}`, `recordings/.moving/${to}`],
    ]);
    const placing = round.flatMap(({ to }) => [
      [`recordings/.moving/${to}.wav`, `${to}.wav`],
      [`recordings/.moving/${to}`, `recordings/${to}`],
    ]);
    for (let done = 0; done <= gathering.length + placing.length; done += 1) {
      const takes = takesPlace();
      for (const [name, bytes] of start) {
        mkdirSync(join(takes, name, '..'), { recursive: true });
        writeFileSync(join(takes, name), Buffer.from(bytes, 'base64'));
      }
      mkdirSync(join(takes, 'recordings/.moving'));
      const phase = done < gathering.length ? 'gather' : 'place';
      writeFileSync(join(takes, 'recordings/.moving.json'), JSON.stringify({ phase, moves: round, ledger }));
      for (const [from = '', to = ''] of [...gathering, ...placing].slice(0, done))
        renameSync(join(takes, from), join(takes, to));
      await finishMoves(takes);
      expect(everything(takes)).toEqual(wanted);
    }
  });
});

describe('a program that is killed while it moves takes', () => {
  it('leaves them all, and the next one brings them where they belong', async () => {
    const takes = await threeTakes();
    /** What can stand there: the takes after any number of moves. */
    const states: (readonly (readonly [string, string])[])[] = [];
    for (let n = 0; n < round.length; n += 1) {
      states.push(everything(takes));
      await moveTakes(takes, round);
    }
    for (let time = 0; time < 4; time += 1) {
      const words = [takes, JSON.stringify(round)];
      await killed('move-in-a-loop.ts', words, said => said !== '', 20 + time * 5);
      await finishMoves(takes);
      // Temporary files of a write that was cut short may lie there; they are nobody's take.
      const left = everything(takes).filter(([name]) => !name.includes('.part'));
      expect(states).toContainEqual(left);
    }
    // Each of these programs takes a while to start.
  }, 150_000);
});

describe('the host', () => {
  const lessonOf = (...says: readonly string[]): string => `format: 1
title: Takes
score: mill-road.abc
home: B minor
steps:
  - title: The beginning
    bars: 1-2
    script:
${says.map(say => `      - say: ${say}\n`).join('')}`;

  it('says how many takes have lost their words, and lets them follow', async () => {
    const { get, lesson } = await bench();
    const say = async (id: string, words: string, seconds: number) =>
      get('saveTake', { path: lesson, id, words, pcm: tone(seconds), sampleRate: 16_000 });
    await say('1.1', 'One.', 1);
    await say('1.2', 'Two.', 2);
    const looked = async (text: string) => {
      const { parts, strays } = await get('takes', { path: lesson, text });
      return [
        strays,
        ...parts.map(({ take, seconds }) => (take === undefined ? 'voice' : take.stale ? 'stale' : seconds)),
      ];
    };
    expect(await looked(lessonOf('One.', 'Two.'))).toEqual([0, 1, 2]);
    const inserted = lessonOf('Zero.', 'One.', 'Two.');
    expect(await looked(inserted)).toEqual([2, 'stale', 'stale', 'voice']);
    expect(await get('moveTakes', { path: lesson, text: inserted })).toEqual({ moved: 2 });
    expect(await looked(inserted)).toEqual([0, 'voice', 1, 2]);
    // The words go back, and so do the takes.
    expect(await get('moveTakes', { path: lesson, text: lessonOf('One.', 'Two.') })).toEqual({ moved: 2 });
    expect(await looked(lessonOf('One.', 'Two.'))).toEqual([0, 1, 2]);
    expect(await get('moveTakes', { path: lesson, text: lessonOf('One.', 'Two.') })).toEqual({ moved: 0 });
  });
});
