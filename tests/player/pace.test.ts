import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { paced } from '../../src/player/pace.js';
import type { Timeline, TimelineEvent } from '../../src/timeline/index.js';

const at = { step: 0, action: 0 };
const passage = (start: number, end: number, under = false): TimelineEvent => ({
  kind: 'passage',
  ...at,
  start,
  end,
  bars: { first: '1', last: '2' },
  as: 'written',
  tempo: 100,
  under,
});
const note = (start: number, end: number): TimelineEvent => ({
  kind: 'note',
  ...at,
  start,
  end,
  midi: 60,
  velocity: 80,
  voice: '1',
  notes: [],
  demonstration: false,
});
const speech = (start: number, end: number, over = false): TimelineEvent => ({
  kind: 'speech',
  ...at,
  start,
  end,
  say: '1.1',
  text: 'word',
  words: [{ text: 'word', from: 0, to: 4, start, end }],
  over,
  measured: true,
});

/** Music from 1 to 5, words from 6 to 8, then words over music from 10 to 14. */
const timeline: Timeline = {
  seconds: 15,
  steps: [
    { index: 0, title: 'one', start: 0, end: 9 },
    { index: 1, title: 'two', start: 9, end: 15 },
  ],
  events: [
    passage(1, 5),
    note(1, 2),
    note(3, 5),
    speech(6, 8),
    passage(10, 13, true),
    note(10, 13),
    speech(11, 14, true),
  ],
};
const startsOf = (of: Timeline, kind: TimelineEvent['kind']): readonly number[] =>
  of.events.filter(event => event.kind === kind).map(({ start }) => start);

describe('pace', () => {
  test('half tempo doubles the music and leaves words and silences as they are', () => {
    const slow = paced(timeline, { music: 0.5, speech: 1 });
    expect(startsOf(slow.timeline, 'note')).toEqual([1, 5, 14]);
    // 4 s more of music before; 2 s of words stay 2 s.
    expect(slow.timeline.events.find(({ kind }) => kind === 'speech')).toMatchObject({ start: 10, end: 12 });
    expect(slow.timeline.seconds).toBe(19);
    expect(slow.timeline.steps.map(({ start }) => start)).toEqual([0, 13]);
  });

  test('where words are spoken over music they set the pace of both', () => {
    const slow = paced(timeline, { music: 0.25, speech: 0.8 });
    const [, over] = slow.timeline.events.filter(({ kind }) => kind === 'speech');
    const under = slow.timeline.events.findLast(({ kind }) => kind === 'passage');
    expect((under?.end ?? 0) - (under?.start ?? 0)).toBeCloseTo(3 / 0.8, 9);
    expect((over?.start ?? 0) - (under?.start ?? 0)).toBeCloseTo(1 / 0.8, 9);
  });

  test('words move with their speech', () => {
    const fast = paced(timeline, { music: 1, speech: 1.25 });
    const first = fast.timeline.events.find(event => event.kind === 'speech');
    expect(first?.kind === 'speech' ? first.words : []).toEqual([
      { text: 'word', from: 0, to: 4, start: first?.start, end: first?.end },
    ]);
    expect((first?.end ?? 0) - (first?.start ?? 0)).toBeCloseTo(1.6, 9);
  });

  test('the two clocks are each other’s inverse and never run back', () => {
    const share = fc.double({ min: 0.25, max: 1.5, noNaN: true });
    const moment = fc.double({ min: 0, max: 15, noNaN: true });
    fc.assert(
      fc.property(share, share, moment, moment, (music, speechPace, one, other) => {
        const { toClock, toLesson } = paced(timeline, { music, speech: speechPace });
        expect(toLesson(toClock(one))).toBeCloseTo(one, 6);
        if (one <= other) expect(toClock(one)).toBeLessThanOrEqual(toClock(other));
      }),
      { seed: 2 },
    );
  });
});
