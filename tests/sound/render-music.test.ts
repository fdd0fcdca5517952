import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import type { InstrumentName } from '../../src/lesson/index.js';
import { joinBlocks, measureLoudness, renderMusic, trimmedBank } from '../../src/sound/index.js';
import type { PlayedNote } from '../../src/sound/index.js';

const note = (midi: number, start: number, end: number, voice = '1', velocity = 80): PlayedNote => ({
  start,
  end,
  midi,
  velocity,
  voice,
});

async function rendered(notes: readonly PlayedNote[], seconds: number, all: InstrumentName = 'piano') {
  const instrumentation = { all };
  const bank = await trimmedBank(notes, instrumentation);
  const blocks = [];
  for await (const block of renderMusic(notes, { bank, seconds, instrumentation })) blocks.push(block);
  return joinBlocks(blocks);
}

/** Frequency of the strongest partial near `about` Hz, by the phase advance of a windowed transform (R. Lyons, Understanding Digital Signal Processing, ch. 13). */
function frequencyNear(samples: Float32Array, sampleRate: number, about: number): number {
  const size = 16384;
  const bin = (from: number, frequency: number) => {
    let [re, im] = [0, 0];
    for (let i = 0; i < size; i += 1) {
      const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * i) / size);
      const sample = (samples[from + i] ?? 0) * window;
      re += sample * Math.cos((2 * Math.PI * frequency * i) / sampleRate);
      im -= sample * Math.sin((2 * Math.PI * frequency * i) / sampleRate);
    }
    return Math.atan2(im, re);
  };
  const [first, hop] = [9600, 480];
  const advance = bin(first + hop, about) - bin(first, about) - (2 * Math.PI * about * hop) / sampleRate;
  const wrapped = advance - 2 * Math.PI * Math.round(advance / (2 * Math.PI));
  return about + (wrapped * sampleRate) / (2 * Math.PI * hop);
}

const fingerprint = (sound: Float32Array): string =>
  createHash('sha256').update(new Uint8Array(sound.buffer)).digest('hex');

const energy = (samples: Float32Array, from: number, to: number): number =>
  samples.slice(from, to).reduce((sum, x) => sum + x * x, 0);

describe('the instrument', () => {
  it('plays A4 at 440 Hz (ISO 16) and C4 at 261.63 Hz', async () => {
    const a = await rendered([note(69, 0, 1.5)], 1.5);
    expect(Math.abs(frequencyNear(a, 48_000, 440) - 440)).toBeLessThan(0.6);
    const c = await rendered([note(60, 0, 1.5)], 1.5);
    expect(Math.abs(frequencyNear(c, 48_000, 261.63) - 261.63)).toBeLessThan(0.6);
  });

  it('is silent to the sample until a note starts', async () => {
    const sound = await rendered([note(60, 0.25003, 1)], 1);
    expect(energy(sound, 0, 12_001)).toBe(0);
    expect(energy(sound, 12_001, 12_501)).toBeGreaterThan(0);
  });

  // Nobody has to reach for the volume where a demonstration on the piano stands between other instruments (common practice).
  it.each<[InstrumentName, number]>([
    ['harpsichord', 60],
    ['organ', 60],
    ['guitar', 55],
    ['violin', 67],
    ['viola', 60],
    ['cello', 48],
    ['strings', 60],
    ['choir', 60],
    ['clarinet', 62],
    ['flute', 72],
  ])('is about as loud as the piano: %s', async (name, middle) => {
    const loudness = async (all: InstrumentName, lowest: number): Promise<number> => {
      const line = [0, 4, 7, 12, 7].map((step, at) => note(lowest + step, 1.2 * at, 1.2 * at + 1.15));
      const sound = await rendered(line, 6.5, all);
      return measureLoudness([sound, sound], 48_000);
    };
    expect(Math.abs((await loudness(name, middle)) - (await loudness('piano', 60)))).toBeLessThan(2.5);
  });

  it('gives the same samples each time, and with a bank that holds more than it needs', async () => {
    const notes = [note(60, 0, 0.4), note(64, 0.2, 0.6, '2', 60)];
    const once = await rendered(notes, 1);
    expect(fingerprint(await rendered(notes, 1))).toBe(fingerprint(once));
    const bank = await trimmedBank([...notes, note(72, 0, 1), note(48, 0, 1, '1', 110)]);
    const blocks = [];
    for await (const block of renderMusic(notes, { bank, seconds: 1 })) blocks.push(block);
    expect(fingerprint(joinBlocks(blocks))).toBe(fingerprint(once));
  });

  it('strikes louder where the velocity is higher', async () => {
    const soft = await rendered([note(60, 0, 0.5, '1', 40)], 0.5);
    const loud = await rendered([note(60, 0, 0.5, '1', 110)], 0.5);
    expect(energy(loud, 0, 24_000)).toBeGreaterThan(4 * energy(soft, 0, 24_000));
  });

  it.each([
    'piano',
    'harpsichord',
    'organ',
    'guitar',
    'violin',
    'viola',
    'cello',
    'strings',
    'choir',
    'clarinet',
    'flute',
  ] as const)('has the %s, sounding and in tune', async instrument => {
    const sound = await rendered([note(69, 0, 1.5)], 1.5, instrument);
    expect(energy(sound, 4800, 24_000)).toBeGreaterThan(0.01);
    expect(Math.abs(1200 * Math.log2(frequencyNear(sound, 48_000, 440) / 440))).toBeLessThan(8);
  });

  it('plays each voice on its own instrument: together they are the sum of both alone', async () => {
    const [high, low] = [note(72, 0, 0.4, 'S'), note(48, 0.1, 0.5, 'T')];
    const instrumentation = { all: 'strings', voices: { S: 'flute' } } as const;
    const bank = await trimmedBank([high, low], instrumentation);
    const blocks = [];
    for await (const block of renderMusic([high, low], { bank, seconds: 0.8, instrumentation }))
      blocks.push(block);
    const [flute, strings] = [await rendered([high], 0.8, 'flute'), await rendered([low], 0.8, 'strings')];
    const worst = joinBlocks(blocks).reduce(
      (most, x, i) => Math.max(most, Math.abs(x - (flute[i] ?? 0) - (strings[i] ?? 0))),
      0,
    );
    expect(worst).toBeLessThan(1e-5);
    expect(energy(flute, 0, 38_400)).toBeGreaterThan(0.01);
  });

  it('renders silence as silence', async () => {
    const sound = await rendered([], 0.5);
    expect(sound.length).toBe(24_000);
    expect(energy(sound, 0, 24_000)).toBe(0);
  });
});
