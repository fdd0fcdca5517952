import { describe, expect, it } from 'vitest';
import { belongTogether } from '../../src/timeline/caption-units.js';
import { captionCues, defaultCaptionStyle } from '../../src/timeline/index.js';
import { located, play, say, scoreOf, timelineOf } from './lessons.js';

const score = scoreOf('C4 | D4 |');
const text =
  'Four bars, four chords. The first is plain G major, and bar 3 is the dominant of the dominant, V7/V in G. Listen to the bass, which rises by step from F sharp to G, and hear how the A minor seventh of bar 2 turns into something brighter.\n\nNow play it again.';

describe('captions', () => {
  const timeline = timelineOf(score, [play('1'), say(text), play('2')]);
  const cues = captionCues(timeline);
  const spoken = cues.filter(cue => cue.say !== undefined);

  it('hold every word once, in order', () => {
    expect(spoken.flatMap(cue => cue.lines).join(' ')).toBe(text.replace(/\s+/gu, ' '));
  });

  it('have two lines of 42 characters and last 7 s at most', () => {
    for (const { lines, start, end } of cues) {
      expect(lines.length).toBeLessThanOrEqual(2);
      for (const line of lines) expect(line.length).toBeLessThanOrEqual(42);
      expect(end - start).toBeLessThanOrEqual(defaultCaptionStyle.longestSeconds + 1.5);
      expect(end - start).toBeGreaterThanOrEqual(defaultCaptionStyle.shortestSeconds);
    }
  });

  it('do not overlap, and leave no gap shorter than a second', () => {
    cues.forEach((cue, index) => {
      const next = cues[index + 1];
      if (next === undefined) return;
      const gap = next.start - cue.end;
      expect(gap === 0 || gap >= 1 - 1e-9, `gap of ${String(gap)} s`).toBe(true);
    });
  });

  it('start with their first word and stay at most 1.5 s after the last one', () => {
    const words = timeline.events.flatMap(event => (event.kind === 'speech' ? event.words : []));
    for (const cue of spoken) {
      const own = words.filter(word => word.start >= cue.start - 1e-9 && word.start < cue.end - 1e-9);
      expect(own[0]?.start).toBe(cue.start);
      expect(cue.end - (own.at(-1)?.end ?? 0)).toBeLessThanOrEqual(1.5);
    }
  });

  it('end a paragraph with the caption', () => {
    expect(spoken.map(cue => cue.lines.join(' ')).at(-1)).toBe('Now play it again.');
  });

  it('describe what is played where nobody speaks', () => {
    expect(cues.filter(cue => cue.say === undefined).map(cue => cue.lines)).toEqual([
      ['[music: bar 1]'],
      ['[music: bar 2]'],
    ]);
    const quiet = captionCues(timeline, { ...defaultCaptionStyle, describeMusic: false });
    expect(quiet).toHaveLength(spoken.length);
  });

  it('describe in two lines of 42 characters too', () => {
    const named = scoreOf('[V:RH] G | c4 |\n[V:LH] z | C,4 |', [
      'V:RH name="Right hand"',
      'V:LH name="Left hand"',
    ]);
    const hand = play('1', { voice: located('LH'), tempo: 50, loop: 2 });
    const lines = captionCues(timelineOf(named, [hand])).flatMap(cue => cue.lines);
    expect(lines).toEqual(['[music: the pickup and bar 1,', 'Left hand alone, slower, 2 times round]']);
  });

  it('break no line or caption inside a name of the trade', () => {
    const lines = spoken.flatMap(cue => cue.lines);
    for (const [index, line] of lines.entries()) {
      const last = line.split(' ').at(-1) ?? '';
      const next = lines[index + 1]?.split(' ')[0] ?? '';
      expect(belongTogether(last, next), `${last} | ${next}`).toBe(false);
    }
  });
});

describe('lines of a caption', () => {
  // BBC Subtitle Guidelines, 3.2.
  it.each([
    ['Two bars, then the same two bars one step lower: a sequence.', /the same$|two$/mu],
    ['Which new note tells you that we are leaving E flat?', /tells$/mu],
    ['In bar three the sopranos sing A flat, G, F below.', /(flat|G),$/mu],
    ['Meanwhile the melody holds a ninth above the bass of the chord.', /\b(the|of|a)$/mu],
  ])('%s', (words, bad) => {
    const [cue] = captionCues(timelineOf(score, [say(words)]));
    expect(cue?.lines).toHaveLength(2);
    expect(cue?.lines.join('\n')).not.toMatch(bad);
  });
});

// Common practice of setting text: names are not broken.
describe('words that stay together', () => {
  it.each([
    ['bar', '3,'],
    ['bars', '5-8'],
    ['F', 'sharp'],
    ['B', 'flat'],
    ['G', 'major,'],
    ['flat', 'major'],
    ['half', 'cadence'],
    ['minor', 'seventh'],
    ['V7/V', 'in'],
    ['in', 'G.'],
    ['of', 'V'],
    ['perfect', 'authentic'],
    ['authentic', 'cadence.'],
    ['measures', '12–15'],
  ])('%s %s', (before, after) => {
    expect(belongTogether(before, after)).toBe(true);
  });
  it.each([['the', 'bass'], ['home.', 'In'], ['bar', 'by'], ['rises', 'in'], ['major,', 'and']])('%s | %s', (before, after) => {
    expect(belongTogether(before, after)).toBe(false);
  }); // prettier-ignore
});
