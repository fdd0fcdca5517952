/** A recording is written down while it is made, so that it outlives the window and the host. */
import { appendFileSync, existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CutOffTape } from '../../src/bridge/index.js';
import { bench } from './bench.js';
import type { Bench } from './bench.js';

const tape = '0123456789abcdef0123456789abcdef';
const sampleRate = 8000;
/** Whole numbers of 16 bits that count on, low byte first. */
const counting = (from: number, length: number): Uint8Array<ArrayBuffer> =>
  new Uint8Array(Int16Array.from({ length }, (_, n) => from + n).buffer);
const add = async (on: Bench, at: number, length: number, name = tape): Promise<number> => {
  const stretch = { path: on.lesson, tape: name, id: '1.1', words: 'Listen.', sampleRate };
  return (await on.get('tape', { ...stretch, at, pcm: counting(at, length) })).samples;
};
const cutOff = async (on: Bench): Promise<readonly CutOffTape[]> =>
  (await on.get('cutOff', { path: on.lesson })).tapes;
const written = (on: Bench): Buffer => readFileSync(join(on.state, 'tapes', `${tape}.pcm`));

describe('a recording that is being made', () => {
  it('is on the disk stretch by stretch; one that is sent again is not there twice, and none leaves a gap', async () => {
    const on = await bench();
    expect(await add(on, 0, 100)).toBe(100);
    expect(await add(on, 100, 50)).toBe(150);
    expect(await add(on, 100, 80)).toBe(180);
    expect(await add(on, 500, 10)).toBe(180);
    expect(written(on)).toEqual(Buffer.from(counting(0, 180)));
  });

  it('is offered to nobody as long as it goes on', async () => {
    const on = await bench();
    await add(on, 0, 100);
    const asked = cutOff(on);
    await new Promise(done => setTimeout(done, 1000));
    await add(on, 100, 100);
    expect(await asked).toEqual([]);
    expect((await cutOff(on)).map(({ seconds }) => seconds)).toEqual([200 / sampleRate]);
  });

  it('is forgotten when it is saved, and when it is dropped', async () => {
    const on = await bench();
    const pcm = counting(0, 100);
    await add(on, 0, 100);
    const whole = { path: on.lesson, id: '1.1', words: 'Listen.', pcm, sampleRate, tape };
    expect(await on.get('saveTake', whole)).toEqual({ recording: 1 });
    expect(readdirSync(join(on.state, 'tapes'))).toEqual([]);
    await add(on, 0, 100);
    await on.get('dropTape', { path: on.lesson, tape });
    expect(readdirSync(join(on.state, 'tapes'))).toEqual([]);
  });
});

describe('a recording that was cut off', () => {
  it('comes back with another host, and becomes a take sample by sample', async () => {
    const first = await bench();
    await add(first, 0, 8000);
    // Half a sample, as a power cut leaves it.
    appendFileSync(join(first.state, 'tapes', `${tape}.pcm`), 'x');
    await first.host.close();

    const on = await first.again();
    expect((await on.get('begin', {})).unsaved).toEqual([{ path: on.lesson, title: '' }]);
    expect(await cutOff(on)).toEqual([{ tape, id: '1.1', words: 'Listen.', seconds: 1 }]);
    expect(await on.get('keepTape', { path: on.lesson, tape })).toEqual({ recording: 1 });
    const wav = readFileSync(join(on.folder, 'takes', '1.1.wav'));
    expect(wav.subarray(44)).toEqual(Buffer.from(counting(0, 8000)));
    expect([await cutOff(on), (await on.get('begin', {})).unsaved]).toEqual([[], []]);
    expect((await on.ask('keepTape', { path: on.lesson, tape })).ok).toBe(false);
  });

  it('is offered with its own lesson only, and taken by no other', async () => {
    const on = await bench();
    await add(on, 0, 100);
    const other = join(on.folder, 'other.yaml');
    expect((await on.get('cutOff', { path: other })).tapes).toEqual([]);
    expect(await on.ask('keepTape', { path: other, tape })).toEqual({
      ok: false,
      problem: { message: 'there is no such recording any more' },
    });
    expect(existsSync(join(on.folder, 'takes'))).toBe(false);
  });

  it('stays where the take cannot be written', async () => {
    const on = await bench();
    await add(on, 0, 100);
    appendFileSync(join(on.folder, 'takes'), 'a file in the way');
    expect((await on.ask('keepTape', { path: on.lesson, tape })).ok).toBe(false);
    expect((await cutOff(on)).map(one => one.tape)).toEqual([tape]);
  });
});
