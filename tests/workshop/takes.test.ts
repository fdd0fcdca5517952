/** Takes: recorded, retaken, chosen, cut, undone; nothing that was recorded is ever lost. */
import { existsSync, mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SpokenPart } from '../../src/bridge/index.js';
import { readWav } from '../../src/sound/index.js';
import { takeStore } from '../../src/workshop/takes/take-store.js';
import { bench } from './bench.js';
import type { Bench } from './bench.js';
import { killed, takesPlace } from './takes-bench.js';
import { tone, toneWav } from './tone.js';

const lessonOf = (words: string, before = ''): string => `format: 1
title: Takes
score: mill-road.abc
home: B minor
steps:
${before}  - title: The beginning
    bars: 1-2
    script:
      - say: ${JSON.stringify(words)}
      - play: 1-2
      - say: And again.
`;
const text = lessonOf('Listen.');
const id = '1.1';

const record = (on: Bench, seconds: number, words = 'Listen.', silence = 0) =>
  on.get('saveTake', {
    path: on.lesson,
    id,
    words,
    pcm: tone(seconds, silence),
    sampleRate: 16_000,
  });
const partOf = async (on: Bench, of = text, part = id): Promise<SpokenPart> => {
  const { parts } = await on.get('takes', { path: on.lesson, text: of });
  const found = parts.find(one => one.id === part);
  if (found === undefined) throw new Error(`no ${part}`);
  return found;
};
const speaking = async (on: Bench, of = text) => {
  const { take, seconds, recordings, canUndo } = await partOf(on, of);
  return {
    take,
    seconds: Math.round(seconds * 100) / 100,
    recordings: recordings.map(({ number }) => number),
    canUndo,
  };
};

describe('a recording', () => {
  it('is written whole as WAV and speaks its text; a retake keeps the earlier one', async () => {
    const on = await bench();
    expect(await speaking(on)).toEqual({ seconds: 0.4, recordings: [], canUndo: false });
    expect(await record(on, 1)).toEqual({ recording: 1 });
    expect(await record(on, 2)).toEqual({ recording: 2 });
    expect(await speaking(on)).toEqual({
      take: { recording: 2, stale: false },
      seconds: 2,
      recordings: [1, 2],
      canUndo: true,
    });
    const takes = join(on.folder, 'takes');
    expect(readFileSync(join(takes, '1.1.wav'))).toEqual(toneWav(2));
    expect(readFileSync(join(takes, 'recordings', '1.1', '1.wav'))).toEqual(toneWav(1));
    const { sound, ends } = await on.get('readTake', { path: on.lesson, id, recording: 1 });
    expect(Buffer.from(sound)).toEqual(toneWav(1));
    expect(ends).toEqual({ from: 0, to: 1 });
  });

  it('can be chosen among several, and every step can be undone, also by another window later', async () => {
    const on = await bench();
    await record(on, 1);
    await record(on, 2);
    await on.get('useTake', { path: on.lesson, id, recording: 1 });
    await on.get('useTake', { path: on.lesson, id, recording: 1, cut: { from: 0.25, to: 0.75 } });
    expect(await speaking(on)).toMatchObject({
      take: { recording: 1, cut: { from: 0.25, to: 0.75 } },
      seconds: 0.5,
    });
    await on.get('useTake', { path: on.lesson, id });
    expect(await speaking(on)).toEqual({ seconds: 0.4, recordings: [1, 2], canUndo: true });
    expect(existsSync(join(on.folder, 'takes', '1.1.wav'))).toBe(false);

    const later = await on.again();
    const undone = [];
    while ((await partOf(later)).canUndo) {
      await later.get('undoTake', { path: later.lesson, id });
      const { take, seconds } = await speaking(later);
      undone.push([take?.recording, take?.cut, seconds]);
    }
    expect(undone).toEqual([
      [1, { from: 0.25, to: 0.75 }, 0.5],
      [1, undefined, 1],
      [2, undefined, 2],
      [1, undefined, 1],
      [undefined, undefined, 0.4],
    ]);
    expect(await later.ask('undoTake', { path: later.lesson, id })).toEqual({
      ok: false,
      problem: { message: 'there is nothing to undo for this text' },
    });
    expect((await partOf(later)).recordings.map(({ number }) => number)).toEqual([1, 2]);
  });

  it('is stale where the words have changed since, and fresh again where one with these words is chosen', async () => {
    const on = await bench();
    await record(on, 1, 'Listen.');
    await record(on, 2, 'Listen again.');
    expect((await speaking(on, text)).take).toEqual({ recording: 2, stale: true });
    expect((await speaking(on, lessonOf('Listen  again.'))).take).toEqual({ recording: 2, stale: false });
    expect((await partOf(on)).recordings).toMatchObject([
      { number: 1, stale: false, words: 'Listen.' },
      { number: 2, stale: true, words: 'Listen again.' },
    ]);
    await on.get('useTake', { path: on.lesson, id, recording: 1 });
    expect((await speaking(on, text)).take).toEqual({ recording: 1, stale: false });
  });

  it('gives the walkthrough its length: silence at the ends is left out, unless they were set by hand', async () => {
    const on = await bench();
    const length = async () => (await on.get('takes', { path: on.lesson, text })).seconds ?? NaN;
    const start = async () => (await partOf(on, text, '1.2')).start ?? NaN;
    const [estimated, estimatedStart] = [await length(), await start()];
    await record(on, 3, 'Listen.', 1);
    // The tone and the twentieth of a second that is left at each of its ends, in place of an estimated word of 0.4 s.
    expect((await length()) - estimated).toBeCloseTo(3.1 - 0.4, 1);
    expect((await start()) - estimatedStart).toBeCloseTo(3.1 - 0.4, 1);
    await on.get('useTake', { path: on.lesson, id, recording: 1, cut: { from: 0.5, to: 4.5 } });
    expect((await length()) - estimated).toBeCloseTo(4 - 0.4, 6);
    const { url } = await on.get('preview', { path: on.lesson, text });
    const page = Buffer.from(on.host.page(url) ?? []).toString('utf8');
    // The page says when the second text begins, as the list does.
    expect(page).toContain(`"start":${String((await start()).toFixed(6)).replace(/0+$/u, '')}`);
  });

  it('that another program put there is kept before anything takes its place', async () => {
    const on = await bench();
    const takes = join(on.folder, 'takes');
    mkdirSync(takes);
    writeFileSync(join(takes, '1.1.wav'), toneWav(1.5));
    expect(await speaking(on)).toEqual({
      take: { recording: 0, stale: false },
      seconds: 1.5,
      recordings: [0],
      canUndo: false,
    });
    expect(await record(on, 1)).toEqual({ recording: 2 });
    expect(await speaking(on)).toMatchObject({ take: { recording: 2 }, recordings: [1, 2] });
    await on.get('undoTake', { path: on.lesson, id });
    expect(readFileSync(join(takes, '1.1.wav'))).toEqual(toneWav(1.5));
    expect(await speaking(on)).toMatchObject({ take: { recording: 1 }, canUndo: false });
  });

  it('of a paragraph stands beside the voice for the others', async () => {
    const on = await bench();
    const two = lessonOf('One two three.\n\nFour five six.');
    await on.get('saveTake', {
      path: on.lesson,
      id: '1.1-2',
      words: 'Four five six.',
      pcm: tone(2),
      sampleRate: 16_000,
    });
    const { parts } = await on.get('takes', { path: on.lesson, text: two });
    expect(parts.map(part => [part.id, part.paragraph, Math.round(part.seconds * 10) / 10])).toEqual([
      // Three words at 150 a minute, the pause of a paragraph, two seconds.
      ['1.1', undefined, 1.2 + 0.7 + 2],
      ['1.1-1', 1, 1.2],
      ['1.1-2', 2, 2],
      ['1.2', undefined, 0.8],
    ]);
  });

  it('is refused in words where there is none, and where nothing of it would be left', async () => {
    const on = await bench();
    const empty = { path: on.lesson, id, words: 'x', pcm: new Uint8Array(), sampleRate: 16_000 };
    expect(await on.ask('saveTake', empty)).toEqual({
      ok: false,
      problem: { message: 'the recording is empty' },
    });
    expect(await on.ask('useTake', { path: on.lesson, id, recording: 3 })).toEqual({
      ok: false,
      problem: { message: 'there is no recording 3 of this text' },
    });
    await record(on, 1);
    expect(await on.ask('useTake', { path: on.lesson, id, recording: 1, cut: { from: 5, to: 6 } })).toEqual({
      ok: false,
      problem: { message: 'the take was not changed: nothing of it is left' },
    });
    expect(await speaking(on)).toMatchObject({ take: { recording: 1 }, seconds: 1 });
    expect(await on.ask('takes', { path: on.lesson, text: 'a: [' })).toMatchObject({
      ok: false,
      problem: { message: 'the lesson cannot be read, so its texts are not known' },
    });
  });

  it('that cannot be written, a file standing where a folder is needed, is refused in words', async () => {
    const on = await bench();
    writeFileSync(join(on.folder, 'takes'), 'a file');
    expect(
      await on.ask('saveTake', { path: on.lesson, id, words: 'x', pcm: tone(1), sampleRate: 16_000 }),
    ).toEqual({
      ok: false,
      problem: {
        message: 'the recording was not kept: a file stands where a folder is needed',
        help: 'it is still in the window; make room or mend the permissions and keep it again',
      },
    });
  });
});

describe('whatever is done', () => {
  type Deed =
    | { readonly kind: 'record' | 'foreign'; readonly seconds: number }
    | { readonly kind: 'use'; readonly recording: number; readonly isCut: boolean }
    | { readonly kind: 'voice' | 'undo' | 'removed' };
  const deed: fc.Arbitrary<Deed> = fc.oneof(
    fc.record({ kind: fc.constantFrom('record', 'foreign'), seconds: fc.integer({ min: 1, max: 9 }) }),
    fc.record({
      kind: fc.constant('use' as const),
      recording: fc.integer({ min: 1, max: 4 }),
      isCut: fc.boolean(),
    }),
    fc.record({ kind: fc.constantFrom('voice', 'undo', 'removed') }),
  );

  it('no sound is lost, and an undo brings back what spoke before', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(deed, { maxLength: 12 }), async deeds => {
        const takes = takesPlace();
        const store = takeStore(takes, id);
        const file = join(takes, '1.1.wav');
        const archive = join(takes, 'recordings', id);
        const spoken = (): string => (existsSync(file) ? readFileSync(file).toString('base64') : 'the voice');
        const made = new Set<string>();
        for (const done of deeds) {
          const before = spoken();
          if (done.kind === 'record' || done.kind === 'foreign') {
            const wav = toneWav(done.seconds / 100);
            if (done.kind === 'record') {
              made.add(wav.toString('base64'));
              await store.add(wav, 'words');
              expect(spoken()).toBe(wav.toString('base64'));
              if (spoken() !== before) {
                expect(await store.undo()).toBe(true);
                expect(spoken()).toBe(before);
              }
            } else writeFileSync(file, wav);
          } else if (done.kind === 'use') {
            const cut = done.isCut ? { from: 0.002, to: 0.008 } : undefined;
            // What another program put there is among the recordings before it is replaced.
            if (before !== 'the voice' && (await store.look()).current?.recording === 0) made.add(before);
            const isThere = await store.use({ recording: done.recording, cut });
            expect(isThere).toBe(existsSync(join(archive, `${String(done.recording)}.wav`)));
            if (!isThere) expect(spoken()).toBe(before);
          } else if (done.kind === 'voice') {
            await store.use({});
            expect(spoken()).toBe('the voice');
          } else if (done.kind === 'undo') {
            const { canUndo } = await store.look();
            expect(await store.undo()).toBe(canUndo);
          } else rmSync(file, { force: true });
        }
        const kept = new Set(
          existsSync(archive)
            ? readdirSync(archive)
                .filter(name => name.endsWith('.wav'))
                .map(name => readFileSync(join(archive, name)).toString('base64'))
            : [],
        );
        for (const sound of made) expect(kept.has(sound)).toBe(true);
      }),
      { numRuns: 40 },
    );
  });
});

describe('a program that is killed while it keeps recordings', () => {
  it('leaves every finished recording, and a take that is whole', async () => {
    const takes = takesPlace();
    const archive = join(takes, 'recordings', id);
    for (let round = 0; round < 3; round += 1) {
      const told = await killed(
        'record-in-a-loop.ts',
        [takes],
        said => said.split('\n').length > 2 + round,
        round * 7,
      );
      const finished = told.split('\n').filter(line => line !== '');
      for (const number of finished)
        expect(readWav(readFileSync(join(archive, `${number}.wav`))).samples).toHaveLength(20 * 16_000);
      const { samples } = readWav(readFileSync(join(takes, '1.1.wav')));
      expect([16_000, 20 * 16_000]).toContain(samples.length);
      expect((await takeStore(takes, id).look()).recordings.length).toBeGreaterThanOrEqual(finished.length);
    }
    // Each of these programs takes a while to start.
  }, 150_000);
});
