import { createHash } from 'node:crypto';
import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ALL_FORMATS, BufferSource, Input } from 'mediabunny';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import {
  joinBlocks,
  makeShelf,
  measureLoudness,
  measureTruePeak,
  mixLesson,
  mixRate,
  readWav,
  writeAudio,
} from '../../src/sound/index.js';
import type { MixOptions, MixSpeech } from '../../src/sound/index.js';
import { buildTimeline, spokenTexts } from '../../src/timeline/index.js';
import type { Timeline } from '../../src/timeline/index.js';
import { ask, cMajor, lessonOf, play, say, scoreOf, wait } from '../timeline/lessons.js';

const score = scoreOf('CEGc | BGDG | c4 |', ['Q:1/4=100']);
const alone = say('Alone.');
const over = say('Over the music.');
const idOf = (action: typeof alone): string => (action.kind === 'say' ? action.id : '');

/** Words for a voice: noise in the rhythm of syllables, the same each time (a linear congruential generator, from memory of ANSI C). */
function babble(seconds: number, level: number, sampleRate = 16_000): MixSpeech {
  let state = 12_345;
  const samples = Float32Array.from({ length: Math.round(seconds * sampleRate) }, (_, i) => {
    state = (state * 1_103_515_245 + 12_345) % 2 ** 31;
    return level * (state / 2 ** 30 - 1) * Math.abs(Math.sin((i / sampleRate) * Math.PI * 4));
  });
  samples[0] = level;
  return { samples, sampleRate };
}

const speech = new Map<string, MixSpeech>([
  [idOf(alone), babble(4, 0.1)],
  [idOf(over), babble(3, 0.1)],
]);
const lesson = lessonOf([[alone, play('1-3'), play('1-3', { tempo: 50, under: true }), over]]);
const lengths = new Map(
  [...speech].map(([id, s]) => [id, { seconds: s.samples.length / s.sampleRate, words: [] }]),
);
const { value: timeline } = buildTimeline({ lesson, score, chordsIn: cMajor, speech: lengths });

async function mixed(
  of: Timeline,
  words: ReadonlyMap<string, MixSpeech>,
  options?: MixOptions,
): Promise<Float32Array> {
  const blocks = [];
  for await (const block of mixLesson(of, words, options)) blocks.push(block);
  return joinBlocks(blocks);
}

const level = (samples: Float32Array, from: number, to: number): number => {
  const part = samples.slice(Math.round(from * mixRate), Math.round(to * mixRate));
  return 10 * Math.log10(part.reduce((sum, x) => sum + x * x, 0) / part.length);
};

let folder: string;
let whole: Float32Array;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'barwise-test-'));
  whole = await mixed(timeline, speech);
});
afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
});

describe('the mix', () => {
  it('is as long as the timeline', () => {
    expect(whole.length).toBe(Math.round(timeline.seconds * mixRate));
  });

  it.each([-16, -23])(
    'has the wanted loudness of %i LUFS within 0.1 LU, under the wanted true peak',
    async loudness => {
      const sound = await mixed(timeline, speech, { loudness });
      expect(Math.abs(measureLoudness([sound, sound], mixRate) - loudness)).toBeLessThan(0.1);
      expect(measureTruePeak([sound])).toBeLessThan(-1 + 0.1);
    },
  );

  it('makes words and music equally loud, within 1 LU', async () => {
    const simple = buildTimeline({
      lesson: lessonOf([[alone, play('1-3')]]),
      score,
      chordsIn: cMajor,
      speech: lengths,
    }).value;
    const left = await mixed(simple, speech);
    const loudness = (kind: 'speech' | 'passage'): number => {
      const event = simple.events.find(other => other.kind === kind);
      const channel = left.slice(
        Math.round((event?.start ?? 0) * mixRate),
        Math.round((event?.end ?? 0) * mixRate),
      );
      return measureLoudness([channel, channel], mixRate);
    };
    expect(Math.abs(loudness('speech') - loudness('passage'))).toBeLessThan(1);
  });

  it('starts the words at their sample', async () => {
    const click = new Float32Array(16_000);
    click[0] = 0.5;
    const only = new Map([[idOf(alone), { samples: click, sampleRate: 16_000 }]]);
    const left = await mixed(
      { ...timeline, events: timeline.events.filter(event => event.kind !== 'note') },
      only,
    );
    const start = timeline.events.find(event => event.kind === 'speech')?.start ?? NaN;
    const loudest = left.reduce((best, x, i) => (Math.abs(x) > Math.abs(left[best] ?? 0) ? i : best), 0);
    expect(loudest).toBe(Math.round(start * mixRate));
  });

  it('lowers the music by 20 dB while words are spoken over it, and lets it come back', async () => {
    // The same music with silent words in place of the spoken ones.
    const silent = new Map(
      [...speech].map(([id, s]) => [id, { ...s, samples: new Float32Array(s.samples.length) }]),
    );
    const withDuck = await mixed(timeline, silent);
    const noDuck = await mixed(timeline, silent, { lowering: 0 });
    const words = timeline.events.find(event => event.kind === 'speech' && event.over);
    const [start, end] = [words?.start ?? NaN, words?.end ?? NaN];
    const change = (from: number, to: number) => level(withDuck, from, to) - level(noDuck, from, to);
    const before = change(1, start - 0.4);
    expect(change(start, end) - before).toBeCloseTo(-20, 1);
    expect(change(end + 0.7, end + 1.5) - before).toBeCloseTo(0, 1);
  });

  it('brings a quiet recording to the level of the voice', async () => {
    const quiet = new Map<string, MixSpeech>([[idOf(alone), { ...babble(4, 0.01), recorded: true }], [idOf(over), babble(3, 0.1)]]); // prettier-ignore
    const left = await mixed(timeline, quiet);
    const start = timeline.events.find(event => event.kind === 'speech')?.start ?? NaN;
    expect(Math.abs(level(left, start, start + 4) - level(whole, start, start + 4))).toBeLessThan(0.5);
  });

  it('is silent where the lesson is: before it begins, in a wait, and while a student thinks', async () => {
    const question = ask('Which one?', ['C', 'G'], 'C');
    const asking = lessonOf([[play('1-2'), wait(3), question]]);
    const words = new Map(spokenTexts(asking).map(({ id }) => [id, babble(1, 0.1)] as const));
    const spoken = new Map([...words].map(([id]) => [id, { seconds: 1, words: [] }]));
    const silent = buildTimeline({ lesson: asking, score, chordsIn: cMajor, speech: spoken }).value;
    const left = await mixed(silent, words);
    const quiet = silent.events.filter(({ kind }) => kind === 'pause' || kind === 'question');
    const halves = quiet.map(({ start, end }) => level(left, (start + end) / 2, end));
    // The lead-in, the wait, the time to think, the ring-out; what is struck before has died away by their second half.
    expect(halves).toHaveLength(4);
    for (const half of halves) expect(half).toBeLessThan(-80);
    const heard = silent.events.filter(({ kind }) => kind === 'passage' || kind === 'speech');
    expect(heard).toHaveLength(3);
    for (const { start, end } of heard) expect(level(left, start, end)).toBeGreaterThan(-35);
  });

  it('gives the same samples each time', async () => {
    const hash = (left: Float32Array) =>
      createHash('sha256').update(new Uint8Array(left.buffer)).digest('hex');
    expect(hash(await mixed(timeline, speech))).toBe(hash(whole));
  });

  it('is the same of speech that lies on disk, which is gone when the shelf is cleared', async () => {
    const shelf = makeShelf();
    const shelved = new Map<string, MixSpeech>();
    for (const [id, sound] of speech) shelved.set(id, await shelf.put(sound));
    expect(await mixed(timeline, shelved)).toEqual(whole);
    await shelf.clear();
    expect(() => shelved.get(idOf(alone))?.samples).toThrow(/was removed/u);
  });

  // POSIX, unlink: a file without a name lives on until it is closed.
  it.skipIf(process.platform === 'win32')(
    'leaves nothing in the folder for temporary files, even if it is ended from outside',
    async () => {
      const own = await mkdtemp(join(tmpdir(), 'barwise-test-'));
      vi.stubEnv('TMPDIR', own);
      const shelf = makeShelf();
      const shelved = new Map([[idOf(alone), await shelf.put(babble(4, 0.1))]]);
      let names: readonly string[] | undefined;
      for await (const block of mixLesson(timeline, shelved)) {
        if (block.length > 0) names = await readdir(own);
        break;
      }
      vi.unstubAllEnvs();
      await shelf.clear();
      await rm(own, { recursive: true });
      expect(names).toEqual([]);
    },
  );
});

describe('audio files', () => {
  const paths = () => ({
    wav: join(folder, 'a.wav'),
    mp3: join(folder, 'a.mp3'),
    m4a: join(folder, 'a.m4a'),
  });
  const once = async (): Promise<readonly string[]> => {
    await writeAudio(mixLesson(timeline, speech), paths(), undefined, timeline.seconds);
    const bytes = await Promise.all(Object.values(paths()).map(path => readFile(path)));
    return bytes.map(content => createHash('sha256').update(content).digest('hex'));
  };

  it('are byte for byte the same each time, and nothing unfinished stays', async () => {
    const first = await once();
    await new Promise(resolve => setTimeout(resolve, 1100));
    expect(await once()).toEqual(first);
    expect((await readdir(folder)).sort()).toEqual(['a.m4a', 'a.mp3', 'a.wav']);
  }, 240_000);

  it('hold the sound: the WAV to the rounding of 16 bits', async () => {
    const { samples, sampleRate } = readWav(await readFile(paths().wav));
    expect(sampleRate).toBe(mixRate);
    expect(samples.length).toBe(whole.length);
    const worst = samples.reduce((most, x, i) => Math.max(most, Math.abs(x - (whole[i] ?? 0))), 0);
    expect(worst).toBeLessThan(1 / 32_768);
  });

  it('last as long as the timeline, and the M4A leaves its encoder delay before time 0', async () => {
    for (const [kind, path] of Object.entries(paths())) {
      const track = await new Input({
        formats: ALL_FORMATS,
        source: new BufferSource(await readFile(path)),
      }).getPrimaryAudioTrack();
      if (track === null) throw new Error(`no sound in the ${kind}`);
      expect([kind, Math.abs((await track.computeDuration()) - timeline.seconds) < 0.06]).toEqual([
        kind,
        true,
      ]);
      if (kind === 'm4a') expect(await track.getFirstTimestamp()).toBeCloseTo(-1024 / 48_000, 4);
    }
  });

  // ISO/IEC 14496-12, 8.6.6: an edit list names the first sample that is heard; read here without the library that wrote it.
  it('tell players in the M4A to leave out the delay of the encoder, to the sample', async () => {
    const file = await readFile(paths().m4a);
    // What players need first stands before the sound.
    expect(file.indexOf('moov')).toBeLessThan(file.indexOf('mdat'));
    const boxes = (from: number, to: number): readonly (readonly [string, number, number])[] => {
      const found: (readonly [string, number, number])[] = [];
      for (let at = from; at + 8 <= to; at += file.readUInt32BE(at))
        found.push([file.toString('latin1', at + 4, at + 8), at + 8, at + file.readUInt32BE(at)]);
      return found;
    };
    const inside = (path: readonly string[]): number =>
      path.reduce<readonly [number, number]>(
        ([from, to], name) => {
          const box = boxes(from, to).find(([other]) => other === name);
          if (box === undefined) throw new Error(`no box ${name}`);
          return [box[1], box[2]];
        },
        [0, file.length],
      )[0];
    const timescale = file.readUInt32BE(inside(['moov', 'trak', 'mdia', 'mdhd']) + 12);
    const list = inside(['moov', 'trak', 'edts', 'elst']);
    expect([timescale, file.readUInt32BE(list), file.readUInt32BE(list + 4)]).toEqual([48_000, 0, 1]);
    const mediaTime = file.readInt32BE(list + 12);
    expect(mediaTime).toBe(1024);
    const heard = file.readUInt32BE(list + 8) / file.readUInt32BE(inside(['moov', 'mvhd']) + 12);
    expect(Math.abs(heard - timeline.seconds)).toBeLessThan(0.03);
  });

  it('are not left half written when the sound fails', async () => {
    async function* failing() {
      yield* mixLesson(timeline, speech);
      throw new Error('no more sound');
    }
    const path = (kind: string): string => join(folder, `broken.${kind}`);
    const files = { wav: path('wav'), mp3: path('mp3'), m4a: path('m4a') };
    await expect(writeAudio(failing(), files)).rejects.toThrow('no more sound');
    expect((await readdir(folder)).filter(name => name.startsWith('broken'))).toEqual([]);
  });
});
