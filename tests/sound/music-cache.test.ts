/** Music that is kept by what is played: what has not changed is not rendered again, and nothing sounds different for it. */
import { mkdtemp, readdir, readFile, rm, truncate, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { folderCache, joinBlocks, renderMusic } from '../../src/sound/index.js';
import type { Instrumentation, PlayedNote, SoundCache } from '../../src/sound/index.js';
import { stretchesOf } from '../../src/sound/instrument/stretches.js';

const note = (midi: number, start: number, end: number, voice = '1', velocity = 80): PlayedNote => ({
  start, end, midi, velocity, voice,
}); // prettier-ignore
const later = (notes: readonly PlayedNote[], by: number): readonly PlayedNote[] =>
  notes.map(one => ({ ...one, start: one.start + by, end: one.end + by }));

const first = [note(60, 0.5, 1), note(64, 0.75, 1.25, '2')];
const second = [note(67, 0, 0.5), note(72, 0.5, 1)];
const third = [note(55, 0, 0.4, '2', 100)];
const lesson = (gap: number) => [...first, ...later(second, 2 + gap), ...later(third, 4 + gap)];

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'barwise-test-'));
});
afterEach(async () => {
  await rm(folder, { recursive: true, force: true });
});

async function heard(
  notes: readonly PlayedNote[],
  cache?: SoundCache,
  instrumentation: Instrumentation = { all: 'piano' },
): Promise<Float32Array> {
  const blocks = [];
  const options = { seconds: 8, instrumentation, ...(cache === undefined ? {} : { cache }) };
  for await (const block of renderMusic(notes, options)) blocks.push(block);
  return joinBlocks(blocks);
}
/** Megabytes are compared as such; told apart one by one they would take minutes. */
const isSame = (a: Float32Array, b: Float32Array): boolean =>
  Buffer.compare(new Uint8Array(a.buffer), new Uint8Array(b.buffer)) === 0;
const kept = async (): Promise<readonly string[]> => (await readdir(folder)).sort();

describe('music in the cache', () => {
  it('is kept passage by passage and comes back to the bit, without the instrument', async () => {
    const cold = await heard(lesson(0));
    expect(isSame(await heard(lesson(0), folderCache(folder)), cold)).toBe(true);
    expect(await kept()).toHaveLength(3);
    // With other sounds in the place of the kept ones only those are heard, so nothing was rendered.
    for (const name of await kept())
      await writeFile(join(folder, name), new Uint8Array(new Float32Array([0.5, 0.25]).buffer));
    const replaced = await heard(lesson(0), folderCache(folder));
    expect(replaced.filter(sample => sample !== 0)).toEqual(
      new Float32Array([0.5, 0.25, 0.5, 0.25, 0.5, 0.25]),
    );
    expect(replaced.indexOf(0.5)).toBe(24_000);
  });

  it('serves a passage that has moved, and is added to by one that has changed', async () => {
    const cache = folderCache(folder);
    await heard(lesson(0), cache);
    const before = await kept();
    const moved = await heard(lesson(0.777), cache);
    expect(await kept()).toEqual(before);
    expect(isSame(moved, await heard(lesson(0.777)))).toBe(true);
    const changed = [...first, ...later([...second, note(76, 1, 1.5)], 2), ...later(third, 4)];
    expect(isSame(await heard(changed, cache), await heard(changed))).toBe(true);
    expect((await kept()).filter(name => !before.includes(name))).toHaveLength(1);
  });

  it('holds a passage once that comes back before it has died away', async () => {
    const twice = [...second, ...later(second, 1.4)];
    expect(isSame(await heard(twice, folderCache(folder)), await heard(twice))).toBe(true);
    expect(isSame(await heard(twice, folderCache(folder)), await heard(twice))).toBe(true);
    expect(await kept()).toHaveLength(1);
  });

  it('tells instruments apart', async () => {
    const cache = folderCache(folder);
    await heard(third, cache);
    const flute = { all: 'flute' } as const;
    expect(isSame(await heard(third, cache, flute), await heard(third, undefined, flute))).toBe(true);
    expect(await kept()).toHaveLength(2);
  });

  it('that is damaged is rendered again; what is broken off is not kept', async () => {
    const cache = folderCache(folder);
    const cold = await heard(third, cache);
    const [name = ''] = await kept();
    const whole = await readFile(join(folder, name));
    await truncate(join(folder, name), 1001);
    expect(isSame(await heard(third, cache), cold)).toBe(true);
    expect(await readFile(join(folder, name))).toEqual(whole);
    await rm(join(folder, name));
    for await (const block of renderMusic(third, { seconds: 8, cache })) if (block.length > 0) break;
    expect(await kept()).toEqual([]);
  });

  it('is done without where the folder cannot be written', async () => {
    await writeFile(join(folder, 'file'), '');
    const blocked = folderCache(join(folder, 'file', 'inside'));
    expect(isSame(await heard(third, blocked), await heard(third))).toBe(true);
  });
});

describe('stretches of music', () => {
  it('begin anew after a silence, whatever the order of the notes', () => {
    const starts = stretchesOf([...later(third, 4), ...first, ...later(second, 2)]).map(({ start }) => start);
    expect(starts).toEqual([0.5, 2, 4]);
    // A long note bridges what the others leave silent.
    expect(stretchesOf([note(48, 0, 3), note(60, 0, 1), note(60, 2.9, 3.5), note(60, 3.7, 4)])).toHaveLength(
      1,
    );
  });

  it('sound on into the next one', async () => {
    const [one, two] = [note(60, 0, 1), note(60, 1.4, 2, '2')];
    const [together, alone, other] = [await heard([one, two]), await heard([one]), await heard([two])];
    const worst = together.reduce((most, x, i) => Math.max(most, Math.abs(x - (alone[i] ?? 0) - (other[i] ?? 0))), 0); // prettier-ignore
    expect(worst).toBeLessThan(1e-7);
    expect(alone.slice(67_200, 67_400).some(sample => sample !== 0)).toBe(true);
  });
});
