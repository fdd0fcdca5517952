import { spawnSync } from 'node:child_process';
import { mkdtemp, mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import {
  commandVoice,
  embeddedVoice,
  espeakVoice,
  readLedger,
  readRecording,
  readWav,
  soundHash,
  speak,
  speakLesson,
  speechClip,
  spell,
  takesIn,
  wavFrames,
  wavHeader,
  writeLedger,
} from '../../src/sound/index.js';
import type { Mono, SpeakingCommand, SpokenSound, Voice } from '../../src/sound/index.js';
import { alignRecording } from '../../src/sound/speech/align-recording.js';
import { spokenTexts } from '../../src/timeline/index.js';
import { ask, lessonOf, say } from '../timeline/lessons.js';

const text =
  'Hear the bass in bar 3, then listen again. It falls from A to F sharp, and V7/V leads home.\n\nNow we close in D major.';
const voice = embeddedVoice();
let folder: string;
let spoken: SpokenSound;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'barwise-test-'));
  spoken = await speak(text, { voice, pace: 150 });
});
afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
});

const wav = ({ samples, sampleRate }: Mono): Uint8Array =>
  Buffer.concat([wavHeader(samples.length, 1, sampleRate), wavFrames(samples, 1)]);
const tone = (seconds: number): Mono => ({
  samples: Float32Array.from({ length: seconds * 16_000 }, (_, i) => 0.3 * Math.sin(i / 5)),
  sampleRate: 16_000,
});
/** A voice that is quick: a tone of 0.1 s for each word. */
const beeps: Voice = {
  id: 'beeps',
  speakSentence: sentence =>
    Promise.resolve({
      ...tone(0.1 * sentence.pieces.length),
      times: sentence.pieces.map((_, n) => ({ start: n / 10, end: (n + 1) / 10 })),
    }),
};

describe('word times of a recording', () => {
  it('are near the true ones, which the voice that speaks here knows from its phones', () => {
    const { pieces } = spell(text);
    const times = alignRecording(pieces, spoken);
    expect(times).toHaveLength(spoken.words.length);
    const errors = times.map(({ start }, index) => Math.abs(start - (spoken.words[index]?.start ?? NaN)));
    expect(errors.reduce((a, b) => a + b, 0) / errors.length).toBeLessThan(0.065);
    // A sentence starts after a pause, and there the recording itself tells the time.
    spoken.words.forEach((word, index) => {
      if (['Hear', 'It', 'Now'].includes(text.slice(word.from, word.to)))
        expect(errors[index]).toBeLessThan(0.06);
    });
  });

  it('are in order and inside the recording, also for noise, silence and more words than sound', () => {
    const { pieces } = spell(text);
    for (const sound of [tone(1), { samples: new Float32Array(16_000), sampleRate: 16_000 }, tone(0.01)]) {
      let before = 0;
      for (const { start, end } of alignRecording(pieces, sound)) {
        expect(start).toBeGreaterThanOrEqual(before);
        expect(end).toBeGreaterThanOrEqual(start);
        before = start;
      }
      expect(before).toBeLessThanOrEqual(sound.samples.length / sound.sampleRate);
    }
  });
});

describe('takes', () => {
  const lesson = lessonOf([[say('First words.\n\nSecond paragraph.'), ask('Which one?', ['C', 'G'], 'C')]]);
  const [words, question, answer] = spokenTexts(lesson).map(({ id }) => id);
  const codes = async (of: typeof lesson, takes: string) => {
    const { value, diagnostics } = await speakLesson(of, { voice: beeps, takes: await takesIn(takes) });
    return { value, codes: diagnostics.map(({ code }) => code) };
  };
  const quiet = (seconds: number): Mono => ({
    samples: new Float32Array(seconds * 16_000),
    sampleRate: 16_000,
  });
  const both = (...parts: readonly Mono[]): Mono => ({
    samples: Float32Array.from(parts.flatMap(({ samples }) => [...samples])),
    sampleRate: 16_000,
  });

  /** The lesson with other words in its `say`. */
  const saying = (text: string): typeof lesson => ({
    ...lesson,
    steps: lesson.steps.map(step => ({
      ...step,
      script: step.script.map(action => (action.kind === 'say' ? { ...action, text } : action)),
    })),
  });

  it('come before the voice, are trimmed at their silences, and time the words', async () => {
    const takes = await mkdtemp(join(folder, 'takes-'));
    await writeFile(join(takes, `${words ?? ''}.wav`), wav(both(quiet(1), tone(2), quiet(1))));
    await writeFile(join(takes, `${answer ?? ''}.wav`), wav(tone(0.5)));
    const { value, codes: found } = await codes(lesson, takes);
    expect(found).toEqual([]);
    const take = value.get(words ?? '');
    expect(take?.recorded).toBe(true);
    expect(Math.abs((take?.seconds ?? 0) - 2.1)).toBeLessThan(0.03);
    expect(take?.words.map(word => word.from)).toEqual([0, 6, 14, 21]);
    expect(value.get(question ?? '')?.recorded).toBeUndefined();
    expect(value.get(answer ?? '')?.recorded).toBe(true);
  });

  it('keep the silence at ends that were set by hand, as long as the file is the same', async () => {
    const takes = await mkdtemp(join(folder, 'takes-'));
    const name = `${words ?? ''}.wav`;
    const bytes = wav(both(quiet(1), tone(2), quiet(1)));
    await writeFile(join(takes, name), bytes);
    const entry = { sound: soundHash(bytes), words: 'First words. Second paragraph.', byHand: true };
    await writeLedger(takes, new Map([[name, entry]]));
    const seconds = async () => (await codes(lesson, takes)).value.get(words ?? '')?.seconds;
    expect(await seconds()).toBe(4);
    const recordings = await takesIn(takes);
    await speakLesson(lesson, { voice: beeps, takes: recordings });
    await recordings.remember();
    expect(await readLedger(takes)).toEqual(new Map([[name, entry]]));
    await writeFile(join(takes, name), wav(both(quiet(1), tone(1), quiet(1))));
    expect(Math.abs(((await seconds()) ?? 0) - 1.1)).toBeLessThan(0.03);
  });

  it('can stand for single paragraphs; the voice speaks the others', async () => {
    const takes = await mkdtemp(join(folder, 'takes-'));
    await writeFile(join(takes, `${words ?? ''}-2.wav`), wav(tone(1)));
    const { value } = await codes(lesson, takes);
    const sound = value.get(words ?? '');
    // Two beeps, the pause of a paragraph, one second.
    expect(Math.abs((sound?.seconds ?? 0) - (0.2 + 0.7 + 1))).toBeLessThan(0.03);
    expect(sound?.words.map(word => word.from)).toEqual([0, 6, 14, 21]);
    expect(sound?.words[2]?.start).toBeGreaterThanOrEqual(0.9);
  });

  it('are stale when the words have changed and the recording has not', async () => {
    const takes = await mkdtemp(join(folder, 'takes-'));
    const file = join(takes, `${words ?? ''}.wav`);
    await writeFile(file, wav(tone(2)));
    const remember = async (of: typeof lesson) => {
      const recordings = await takesIn(takes);
      const { diagnostics } = await speakLesson(of, { voice: beeps, takes: recordings });
      await recordings.remember();
      return diagnostics.map(({ code }) => code);
    };
    const changed = saying('Other words.');
    expect(await remember(lesson)).toEqual([]);
    expect(await remember(changed)).toEqual(['T0030']);
    // It stays stale until it is recorded again.
    expect(await remember(changed)).toEqual(['T0030']);
    await writeFile(file, wav(tone(1)));
    expect(await remember(changed)).toEqual([]);
    expect(JSON.parse(await readFile(join(takes, 'takes.json'), 'utf8'))).toMatchObject({
      [`${words ?? ''}.wav`]: { words: 'Other words.' },
    });
  });

  it('that cannot be read leave the words to the voice; those that fit nothing are named', async () => {
    const takes = await mkdtemp(join(folder, 'takes-'));
    await writeFile(join(takes, `${words ?? ''}.wav`), 'no sound');
    await writeFile(join(takes, `${question ?? ''}.mp3`), 'no sound');
    await writeFile(join(takes, '9.9.wav'), wav(tone(1)));
    const { value, codes: found } = await codes(lesson, takes);
    expect(found).toEqual(['T0031', 'T0031', 'T0032']);
    expect(value.get(words ?? '')?.recorded).toBeUndefined();
  });

  // MP3 is made by another program than the one that reads it (LAME and mpg123, both in packages).
  it('may be MP3: trimmed, timed and stale like a WAV, by whole text and by paragraph', async () => {
    const takes = await mkdtemp(join(folder, 'takes-'));
    const { mp3 } = await speechClip(both(quiet(1), tone(2), quiet(1)));
    await writeFile(join(takes, `${words ?? ''}-2.mp3`), mp3);
    await writeFile(join(takes, `${answer ?? ''}.MP3`), mp3);
    const first = await takesIn(takes);
    const { value, diagnostics } = await speakLesson(lesson, { voice: beeps, takes: first });
    await first.remember();
    expect(diagnostics).toEqual([]);
    const sound = value.get(words ?? '');
    // Two beeps, the pause of a paragraph, the two seconds with what is left around them.
    expect(Math.abs((sound?.seconds ?? 0) - (0.2 + 0.7 + 2.1))).toBeLessThan(0.05);
    expect(sound?.words.map(word => word.from)).toEqual([0, 6, 14, 21]);
    expect(sound?.words[2]?.start).toBeCloseTo(0.9 + 0.05, 1);
    const loudest = value.get(answer ?? '')?.samples.reduce((a, b) => Math.max(a, b), 0) ?? NaN;
    expect(loudest).toBeCloseTo(0.3, 1);
    expect((await codes(saying('First words.\n\nAnother paragraph.'), takes)).codes).toEqual(['T0030']);
  });

  it('are read as WAV where there is an MP3 for the same words, which is named', async () => {
    const takes = await mkdtemp(join(folder, 'takes-'));
    await writeFile(join(takes, `${words ?? ''}.m4a`), 'no sound');
    await writeFile(join(takes, `${words ?? ''}.mp3`), (await speechClip(tone(3))).mp3);
    await writeFile(join(takes, `${words ?? ''}.wav`), wav(tone(1)));
    const { value, codes: found } = await codes(lesson, takes);
    expect(found).toEqual(['T0032', 'T0032']);
    expect(value.get(words ?? '')?.seconds).toBeCloseTo(1, 1);
  });

  it('are not needed: a folder that is not there has none', async () => {
    expect((await codes(lesson, join(folder, 'nowhere'))).codes).toEqual([]);
  });
});

describe('a command as a voice', () => {
  const node =
    (script: string, timeoutSeconds = 20) =>
    (): SpeakingCommand => ({ program: process.execPath, args: ['-e', script], timeoutSeconds });
  const lesson = lessonOf([[say('One two.'), say('Three.')]]);
  const failing = async (command: () => SpeakingCommand) => {
    const { value, diagnostics } = await speakLesson(lesson, {
      voice: commandVoice('test', command),
      fallback: beeps,
    });
    return {
      seconds: [...value.values()].map(({ seconds }) => Math.round(seconds * 10) / 10),
      findings: diagnostics.map(({ code, message }) => `${code} ${message}`),
    };
  };

  it('gets plain text and gives a WAV', async () => {
    const echo = join(folder, 'echo.txt');
    const file = join(folder, 'tone.wav');
    await mkdir(folder, { recursive: true });
    await writeFile(file, wav(tone(1)));
    const script = `let text = ''; process.stdin.on('data', part => (text += part)).on('end', () => { require('fs').appendFileSync(${JSON.stringify(echo)}, text); process.stdout.write(require('fs').readFileSync(${JSON.stringify(file)})); });`;
    const sound = await speak('Hear A in V7/V.', { voice: commandVoice('test', node(script)), pace: 150 });
    expect(await readFile(echo, 'utf8')).toBe('hear ay in five seven of five.\n');
    expect(sound.seconds).toBe(1);
    expect(sound.words).toHaveLength(4);
  });

  it('that fails once hands the whole lesson to the built-in voice, with the reason', async () => {
    const stopped = await failing(node("console.error('no such voice'); process.exit(3)"));
    expect(stopped.seconds).toEqual([0.2, 0.1]);
    expect(stopped.findings).toHaveLength(1);
    expect(stopped.findings[0]).toMatch(/^T0033 .*stopped with 3: no such voice$/u);
    expect((await failing(node("process.stdout.write('not a sound')"))).findings[0]).toMatch(
      /T0033 .*not a WAV file/u,
    );
    expect(
      (await failing(() => ({ program: join(folder, 'nowhere'), args: [], timeoutSeconds: 5 }))).findings[0],
    ).toMatch(/T0033 .*could not be started/u);
  });

  it('that takes too long is stopped', async () => {
    const started = Date.now();
    const slow = await failing(node('setTimeout(() => undefined, 60_000)', 1));
    expect(slow.findings[0]).toMatch(/T0033 .*took longer than 1 s/u);
    expect(Date.now() - started).toBeLessThan(20_000);
  });

  const hasEspeak = spawnSync('espeak-ng', ['--version']).status === 0;
  it.skipIf(!hasEspeak)(
    hasEspeak ? 'can be espeak-ng' : 'NOT TESTED HERE: espeak-ng is not installed',
    async () => {
      const sound = await speak('Hear the bass. It falls.', { voice: espeakVoice(20), pace: 150 });
      expect(sound.seconds).toBeGreaterThan(1);
      expect(sound.words).toHaveLength(5);
    },
  );
});

describe('a recording', () => {
  const ascii = (text: string): Uint8Array => Buffer.from(`${text}${'\0'.repeat(64)}`, 'latin1');
  let mp3: Uint8Array;
  beforeAll(async () => {
    ({ mp3 } = await speechClip(tone(2)));
  });

  it('is told by what is in it, not by its name', async () => {
    expect((await readRecording(wav(tone(1)))).samples).toHaveLength(16_000);
    const { samples, sampleRate } = await readRecording(mp3);
    expect(sampleRate).toBe(16_000);
    expect(samples.length / sampleRate).toBeCloseTo(2, 0);
  });

  // ID3v2.4, 3.1: ten bytes, of which the last four give the length of the tag, seven bits each. ID3v1: 128 bytes at the end; from memory.
  it('may carry tags at both ends', async () => {
    const tag = Buffer.concat([Buffer.from('ID3\x04\0\0\0\0\x01\0', 'latin1'), Buffer.alloc(128, 0xff)]);
    const tagged = Buffer.concat([tag, mp3, Buffer.from('TAG'), Buffer.alloc(125)]);
    expect((await readRecording(tagged)).samples).toEqual((await readRecording(mp3)).samples);
  });

  it('that is cut off ends where it ends', async () => {
    const { samples } = await readRecording(mp3.slice(0, mp3.length / 2));
    expect(samples.length / 16_000).toBeCloseTo(1, 0);
  });

  // The bytes with which files begin: RFC 9639 (FLAC), 3533 (Ogg), 8794 (WebM), ISO/IEC 14496-12 (M4A), ISO/IEC 13818-7 (AAC); AIFF from memory.
  it.each([
    ['an M4A file is neither WAV nor MP3', ascii('\0\0\0\x20ftypM4A ')],
    ['an Ogg file is neither WAV nor MP3', ascii('OggS')],
    ['a FLAC file is neither WAV nor MP3', ascii('fLaC')],
    ['a WebM file is neither WAV nor MP3', ascii('\x1aE\xdf\xa3')],
    ['an AIFF file is neither WAV nor MP3', ascii('FORM')],
    ['it is neither WAV nor MP3', ascii('\xff\xf1')],
    ['it is neither WAV nor MP3', new Uint8Array()],
    ['an MP3 file without sound', ascii('\xff\xfb')],
    ['not a WAV file', ascii('RIFF')],
  ])('that cannot be read says why: %s', async (message, bytes) => {
    await expect(readRecording(bytes)).rejects.toThrow(new RangeError(message));
  });

  it('that is damaged inside says so, and nothing is printed', async () => {
    const printed = vi.spyOn(console, 'error');
    const damaged = mp3.map((byte, at) => (at > 2000 && at < 4000 ? (at * 7919) % 256 : byte));
    await expect(readRecording(damaged)).rejects.toThrow(new RangeError('the MP3 file is damaged'));
    expect(printed).not.toHaveBeenCalled();
    printed.mockRestore();
  });
});

// Layouts: RIFF WAVE as published by IBM and Microsoft (1991), WAVE_FORMAT_EXTENSIBLE as published by Microsoft; from memory.
describe('WAV files', () => {
  const file = (
    encoding: number,
    bits: number,
    data: Uint8Array,
    channels = 1,
    extension?: number,
  ): Uint8Array => {
    const fmt = new DataView(new ArrayBuffer(extension === undefined ? 16 : 40));
    fmt.setUint16(0, encoding, true);
    fmt.setUint16(2, channels, true);
    fmt.setUint32(4, 44_100, true);
    fmt.setUint32(8, (44_100 * channels * bits) / 8, true);
    fmt.setUint16(12, (channels * bits) / 8, true);
    fmt.setUint16(14, bits, true);
    if (extension !== undefined) {
      fmt.setUint16(16, 22, true);
      fmt.setUint16(24, extension, true);
    }
    const chunk = (name: string, body: Uint8Array, size = body.length) =>
      Buffer.concat([
        Buffer.from(name),
        Buffer.from(Uint32Array.of(size).buffer),
        body,
        Buffer.alloc(body.length % 2),
      ]);
    const chunks = Buffer.concat([
      chunk('fmt ', new Uint8Array(fmt.buffer)),
      chunk('LIST', new Uint8Array([1, 2, 3])),
      chunk('data', data),
    ]);
    return Buffer.concat([
      Buffer.from('RIFF'),
      Buffer.from(Uint32Array.of(4 + chunks.length).buffer),
      Buffer.from('WAVE'),
      chunks,
    ]);
  };

  it.each([
    ['8 bits', file(1, 8, Uint8Array.of(128, 192, 0)), [0, 0.5, -1]],
    ['16 bits', file(1, 16, new Uint8Array(Int16Array.of(0, 16_384, -32_768).buffer)), [0, 0.5, -1]],
    ['24 bits', file(1, 24, Uint8Array.of(0, 0, 0, 0, 0, 0x40, 0, 0, 0x80)), [0, 0.5, -1]],
    ['32 bits', file(1, 32, new Uint8Array(Int32Array.of(0, 2 ** 30, -(2 ** 31)).buffer)), [0, 0.5, -1]],
    ['floating point', file(3, 32, new Uint8Array(Float32Array.of(0, 0.5, -1).buffer)), [0, 0.5, -1]],
    [
      'the extensible form',
      file(0xfffe, 16, new Uint8Array(Int16Array.of(0, 16_384, -32_768).buffer), 1, 1),
      [0, 0.5, -1],
    ],
    [
      'two channels, averaged',
      file(1, 16, new Uint8Array(Int16Array.of(0, 16_384, -16_384, -16_384).buffer), 2),
      [0.25, -0.5],
    ],
  ] as const)('of %s', (_, bytes, expected) => {
    const { samples, sampleRate } = readWav(bytes);
    expect(sampleRate).toBe(44_100);
    expect([...samples]).toEqual(expected);
  });

  it('in another encoding, cut off or empty are refused', () => {
    expect(() => readWav(file(7, 8, Uint8Array.of(1)))).toThrow(RangeError);
    expect(() => readWav(file(1, 16, Uint8Array.of(1, 2)).slice(0, 30))).toThrow(RangeError);
    expect(() => readWav(new Uint8Array())).toThrow(RangeError);
  });
});
