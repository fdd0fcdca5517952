import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtemp, readdir, rm, utimes, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { embeddedVoice, folderCache, renderMusic, speak, speechClip } from '../../src/sound/index.js';
import type { SpokenSound, Voice } from '../../src/sound/index.js';

const voice = embeddedVoice();
const text = 'Hear the bass in bar 3. It falls from A to F#, then V7/V leads home. Is it C?';
let folder: string;
let spoken: SpokenSound;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'barwise-test-'));
  spoken = await speak(text, { voice, pace: 150 });
});
afterAll(async () => {
  await rm(folder, { recursive: true, force: true });
});

/** Speech with its samples as a hash, which is quicker to compare. */
const fingerprint = ({ samples, ...rest }: SpokenSound) => ({
  ...rest,
  samples: createHash('sha256').update(new Uint8Array(samples.buffer)).digest('hex'),
});

/** Where sound begins after each silence of at least 0.2 s: the level of 10 ms windows passes one hundredth of the peak. */
function onsetsAfterSilence({ samples, sampleRate }: SpokenSound): readonly number[] {
  const window = sampleRate / 100;
  const levels = Array.from({ length: Math.floor(samples.length / window) }, (_, n) =>
    Math.sqrt(samples.slice(n * window, (n + 1) * window).reduce((sum, x) => sum + x * x, 0) / window),
  );
  const threshold = Math.max(...levels) / 100;
  const onsets: number[] = [];
  let silent = 20;
  levels.forEach((level, n) => {
    if (level < threshold) silent += 1;
    else {
      if (silent >= 20) onsets.push(n / 100);
      silent = 0;
    }
  });
  return onsets;
}

describe('the embedded voice', () => {
  it('gives every shown word its time, in order, by its offsets', () => {
    expect(spoken.words.map(word => text.slice(word.from, word.to))).toEqual(
      text.replace(/[.,?]/gu, '').split(' '),
    );
    spoken.words.forEach((word, index) => {
      expect(word.end).toBeGreaterThan(word.start + 0.03);
      expect(word.start).toBeGreaterThanOrEqual((spoken.words[index - 1]?.end ?? 0) - 0.001);
    });
    expect(spoken.words.at(-1)?.end).toBeLessThanOrEqual(spoken.seconds);
  });

  it('places the start of every sentence within 60 ms of where it is heard', () => {
    const starts = spoken.words
      .filter(word => ['Hear', 'It', 'Is'].includes(text.slice(word.from, word.to)))
      .map(word => word.start);
    const heard = onsetsAfterSilence(spoken);
    expect(starts.length).toBe(3);
    for (const start of starts)
      expect(Math.min(...heard.map(onset => Math.abs(onset - start)))).toBeLessThan(0.06);
  });

  it('speaks slower at a slower pace', async () => {
    const slow = await speak(text, { voice, pace: 110 });
    expect(slow.seconds / spoken.seconds).toBeGreaterThan(1.2);
    expect(slow.seconds / spoken.seconds).toBeLessThan(1.5);
  });

  it('gives the same samples each time, from another instance too', async () => {
    expect(fingerprint(await speak(text, { voice: embeddedVoice(), pace: 150 }))).toEqual(
      fingerprint(spoken),
    );
  });

  it('has the pronunciations of its own lexicon: no complaint of the program is taken for a phone', async () => {
    const { words } = await speak('The ritardando leads to a plagal cadence.', { voice, pace: 150 });
    for (const word of words) expect(word.end - word.start).toBeGreaterThan(0.03);
  });

  it('says nothing for a text without words', async () => {
    expect(await speak('…', { voice, pace: 150 })).toMatchObject({ seconds: 0, words: [] });
  });

  it('does not trouble the user with warnings of Node about WASI, and leaves other warnings alone', () => {
    const program = `import { embeddedVoice, speak } from './src/sound/index.ts';
      await speak('One.', { voice: embeddedVoice(), pace: 150 });
      process.emitWarning('another');`;
    const run = spawnSync(process.execPath, ['--import', 'tsx', '--input-type=module', '-e', program], {
      encoding: 'utf8',
      env: { ...process.env, NODE_NO_WARNINGS: '' },
    });
    expect(run.status).toBe(0);
    expect(run.stderr).not.toContain('WASI');
    expect(run.stderr).toContain('another');
  });
});

describe('the cache', () => {
  const counted = (): { readonly voice: Voice; readonly count: () => number } => {
    let sentences = 0;
    const speakSentence: Voice['speakSentence'] = (sentence, pace) => {
      sentences += 1;
      return voice.speakSentence(sentence, pace);
    };
    return { voice: { id: voice.id, speakSentence }, count: () => sentences };
  };

  it('speaks a sentence once and gives the same sound again', async () => {
    const cache = folderCache(join(folder, 'speech'));
    const first = counted();
    const cold = await speak(text, { voice: first.voice, pace: 150, cache });
    const second = counted();
    const warm = await speak(text, { voice: second.voice, pace: 150, cache });
    expect([first.count(), second.count()]).toEqual([3, 0]);
    expect(fingerprint(warm)).toEqual(fingerprint(cold));
    expect(fingerprint(cold)).toEqual(fingerprint(spoken));
  });

  it('speaks only what has changed, and all of it for another pace or voice', async () => {
    const cache = folderCache(join(folder, 'speech'));
    const changed = counted();
    await speak(text.replace('Is it C?', 'Is it D?'), { voice: changed.voice, pace: 150, cache });
    expect(changed.count()).toBe(1);
    const slower = counted();
    await speak(text, { voice: slower.voice, pace: 149, cache });
    expect(slower.count()).toBe(3);
    const other = counted();
    await speak(text, { voice: { ...other.voice, id: 'other' }, pace: 150, cache });
    expect(other.count()).toBe(3);
  });

  it('gives the same again for a voice with finer samples than it keeps', async () => {
    const fine: Voice = {
      id: 'fine',
      speakSentence: () =>
        Promise.resolve({
          samples: Float32Array.from({ length: 1600 }, (_, i) => 0.3 * Math.sin(i / 7)),
          sampleRate: 16_000,
          times: [{ start: 0, end: 0.1 }],
        }),
    };
    const cache = folderCache(join(folder, 'fine'));
    const cold = await speak('One.', { voice: fine, pace: 150, cache });
    expect(fingerprint(await speak('One.', { voice: fine, pace: 150, cache }))).toEqual(fingerprint(cold));
  });

  it('forgets what has not been asked for in sixty days, and touches nothing else in its folder', async () => {
    const kept = join(folder, 'kept');
    const cache = folderCache(kept);
    await speak('One.', { voice, pace: 150, cache });
    await speechClip({ samples: new Float32Array(160), sampleRate: 16_000 }, cache);
    const note = { start: 0, end: 0.1, midi: 60, velocity: 80, voice: '1' };
    const hear = async () => {
      for await (const block of renderMusic([note], { seconds: 2, cache })) expect(block.length).toBe(4800);
    };
    await hear();
    const names = await readdir(kept);
    expect(new Set(names.map(name => extname(name)))).toEqual(new Set(['.wav', '.json', '.mp3', '.music']));
    // What a build that was broken off has left.
    await writeFile(join(kept, `${'a'.repeat(32)}.music.1234.5.part`), '');
    await writeFile(join(kept, 'notes.wav'), '');
    const age = async (days: number) => {
      const then = new Date(Date.now() - days * 24 * 60 * 60 * 1000);
      for (const name of await readdir(kept)) await utimes(join(kept, name), then, then);
    };
    await age(59);
    await cache.forgetUnused();
    expect(await readdir(kept)).toHaveLength(names.length + 2);
    await age(61);
    await speak('One.', { voice, pace: 150, cache });
    await speechClip({ samples: new Float32Array(160), sampleRate: 16_000 }, cache);
    await hear();
    await cache.forgetUnused();
    expect((await readdir(kept)).sort()).toEqual([...names, 'notes.wav'].sort());
    await age(61);
    await cache.forgetUnused();
    expect(await readdir(kept)).toEqual(['notes.wav']);
  });

  it('passes over damaged files', async () => {
    const damaged = join(folder, 'damaged');
    await speak('One.', { voice, pace: 150, cache: folderCache(damaged) });
    for (const name of await readdir(damaged)) await writeFile(join(damaged, name), '{}');
    const again = counted();
    await speak('One.', { voice: again.voice, pace: 150, cache: folderCache(damaged) });
    expect(again.count()).toBe(1);
  });

  it('keeps the clips of the page too, equal to the byte, and makes a damaged one again', async () => {
    const clips = join(folder, 'clips');
    const cache = folderCache(clips);
    const plain = await speechClip(spoken);
    expect(await speechClip(spoken, cache)).toEqual(plain);
    const names = await readdir(clips);
    expect(names.map(name => name.slice(-4))).toEqual(['.mp3']);
    // What is kept is what is given: another content under the same name comes back as it is.
    await writeFile(join(clips, names[0] ?? ''), 'other');
    expect(Buffer.from((await speechClip(spoken, cache)).mp3).toString()).toBe('other');
    await writeFile(join(clips, names[0] ?? ''), '');
    expect(await speechClip(spoken, cache)).toEqual(plain);
  });

  it('does without a folder that cannot be made', async () => {
    const blocked = join(folder, 'file');
    await writeFile(blocked, '');
    expect(
      (await speak('One.', { voice, pace: 150, cache: folderCache(join(blocked, 'inside')) })).seconds,
    ).toBeGreaterThan(0.1);
  });
});
