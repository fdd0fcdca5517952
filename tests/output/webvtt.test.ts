import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import {
  captionsSrt,
  captionsWebvtt,
  chapterList,
  chaptersWebvtt,
  timelineJson,
} from '../../src/output/index.js';
import { buildTimeline } from '../../src/timeline/index.js';
import { cMajor, lessonOf, play, say, scoreOf } from '../timeline/lessons.js';

interface Parsed {
  readonly cues: readonly {
    readonly id: string;
    readonly startTime: number;
    readonly endTime: number;
    readonly text: string;
  }[];
  readonly errors: readonly { readonly message: string; readonly line: number }[];
}

/** The validator of the W3C's WebVTT community; it has no types of its own. */
const { WebVTTParser } = createRequire(import.meta.url)('webvtt-parser') as {
  readonly WebVTTParser: new () => { readonly parse: (text: string, mode: string) => Parsed };
};
const parse = (text: string, mode: 'metadata' | 'chapters' | 'subtitles' = 'subtitles') =>
  new WebVTTParser().parse(text, mode);

const score = scoreOf('C4 | D4 |');
const lesson = lessonOf([
  [
    play('1'),
    say(
      'Hear C & D <here> --> there, then V7/V in G. It is a long sentence, so that it does not fit into a single caption of two lines.',
    ),
  ],
  [say('Short.')],
  [],
  [play('1-2', { times: 4 }), say('The end.')],
]);
const { value: timeline } = buildTimeline({ lesson, score, chordsIn: cMajor });

describe('captions as WebVTT', () => {
  const parsed = parse(captionsWebvtt(timeline));

  it('are valid for an independent parser', () => {
    expect(parsed.errors).toEqual([]);
    expect(parsed.cues.length).toBeGreaterThan(4);
  });

  it('come out of the parser with their times and their text', () => {
    expect(
      parsed.cues
        .map(cue => cue.text)
        .join(' ')
        .replace(/\s+/gu, ' '),
    ).toContain('Hear C &amp; D &lt;here&gt; --&gt; there');
    parsed.cues.forEach((cue, index) => {
      expect(cue.endTime).toBeGreaterThan(cue.startTime);
      expect(cue.startTime).toBeGreaterThanOrEqual(parsed.cues[index - 1]?.endTime ?? 0);
    });
    const firstWord = timeline.events.find(event => event.kind === 'speech')?.start ?? NaN;
    expect(parsed.cues.some(cue => Math.abs(cue.startTime - firstWord) < 0.001)).toBe(true);
  });

  it('the parser does find faults, so the check can fail', () => {
    expect(parse(captionsWebvtt(timeline).replace(' --> ', ' -> ')).errors.length).toBeGreaterThan(0);
  });
});

describe('captions as SRT', () => {
  // A convention without a standard; from memory.
  it('count from 1, write commas and end each caption with a blank line', () => {
    const blocks = captionsSrt(timeline).trimEnd().split('\n\n');
    blocks.forEach((block, index) => {
      const [count, times, ...lines] = block.split('\n');
      expect(count).toBe(String(index + 1));
      expect(times).toMatch(/^\d\d:\d\d:\d\d,\d\d\d --> \d\d:\d\d:\d\d,\d\d\d$/u);
      expect(lines.length).toBeGreaterThan(0);
    });
    expect(blocks).toHaveLength(parse(captionsWebvtt(timeline)).cues.length);
  });
});

describe('chapters', () => {
  it('are valid WebVTT chapters, consecutive, one for each step that takes time', () => {
    const parsed = parse(chaptersWebvtt(timeline), 'chapters');
    expect(parsed.errors).toEqual([]);
    expect(parsed.cues.map(cue => cue.text)).toEqual(['Step 1', 'Step 2', 'Step 4']);
    parsed.cues.forEach((cue, index) => {
      expect(cue.startTime).toBe(parsed.cues[index - 1]?.endTime ?? 0);
    });
    expect(Math.abs((parsed.cues.at(-1)?.endTime ?? 0) - timeline.seconds)).toBeLessThan(0.001);
  });

  it('as a list start at 0:00 and last ten seconds or more', () => {
    expect(chapterList(timeline)).toBe('0:00 Step 1; Step 2\n0:15 Step 4\n');
  });
});

describe('the timeline as JSON', () => {
  it('is the timeline', () => {
    expect(JSON.parse(timelineJson(timeline))).toEqual({ barwise: 1, ...timeline });
  });
});
