import { BufferTarget } from 'mediabunny';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { mp3DelaySamples, speechClip, startMp3 } from '../../src/sound/index.js';
import { launchBrowser } from './launch.js';

let browser: Browser;
let page: Page;

beforeAll(async () => {
  browser = await launchBrowser();
  page = await browser.newPage();
});
afterAll(async () => {
  await browser.close();
});

/** Short tones at the given seconds. */
function tones(sampleRate: number, at: readonly number[]): Float32Array {
  const samples = new Float32Array(sampleRate * 2);
  for (const start of at)
    for (let i = 0; i < sampleRate / 50; i += 1)
      samples[Math.round(start * sampleRate) + i] = 0.8 * Math.sin((2 * Math.PI * 1000 * i) / sampleRate);
  return samples;
}

/** Where the browser hears the tones begin, in seconds of its decoded buffer. */
async function heard(mp3: Uint8Array, contextRate: number): Promise<readonly number[]> {
  return page.evaluate(
    async ([base64, rate]) => {
      const bytes = Uint8Array.from(atob(base64), character => character.charCodeAt(0));
      const buffer = await new OfflineAudioContext(1, 1, rate).decodeAudioData(bytes.buffer);
      const onsets: number[] = [];
      let silent = Infinity;
      buffer.getChannelData(0).forEach((sample, index) => {
        if (Math.abs(sample) < 0.2) silent += 1;
        else {
          if (silent > buffer.sampleRate / 10) onsets.push(index / buffer.sampleRate);
          silent = 0;
        }
      });
      return onsets;
    },
    [Buffer.from(mp3).toString('base64'), contextRate] as const,
  );
}

describe('MP3 as a browser decodes it', () => {
  const at = [0, 0.5, 1.2, 1.9];

  it.each([44_100, 48_000])(
    'a clip of speech is heard `skipSeconds` late, to the half millisecond (context at %i Hz)',
    async contextRate => {
      const clip = await speechClip({ samples: tones(16_000, at), sampleRate: 16_000 });
      const onsets = await heard(clip.mp3, contextRate);
      expect(onsets.length).toBe(at.length);
      onsets.forEach((onset, index) => {
        expect(Math.abs(onset - clip.skipSeconds - (at[index] ?? NaN))).toBeLessThan(0.0005);
      });
    },
  );

  it('a stereo file at 48 kHz is late by the same number of samples', async () => {
    const channel = tones(48_000, at);
    const target = new BufferTarget();
    const encoding = await startMp3(target, 48_000, 2, 128_000);
    await encoding.add(channel);
    await encoding.finish();
    const onsets = await heard(new Uint8Array(target.buffer ?? new ArrayBuffer(0)), 48_000);
    expect(onsets.map(onset => Math.round((onset - mp3DelaySamples / 48_000) * 1000))).toEqual(
      at.map(start => start * 1000),
    );
  });
});
