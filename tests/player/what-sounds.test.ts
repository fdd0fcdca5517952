import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { paced } from '../../src/player/pace.js';
import { passagesBetween } from '../../src/player/sound/passages.js';
import { whatSounds } from '../../src/player/what-sounds.js';
import type { NoteId } from '../../src/score/index.js';
import type { NoteEvent, Timeline, TimelineEvent } from '../../src/timeline/index.js';

const note = (
  start: number,
  end: number,
  midi: number,
  notes: readonly number[],
  score?: string,
): NoteEvent => ({
  kind: 'note',
  step: 0,
  action: 0,
  start,
  end,
  midi,
  velocity: 80,
  voice: '1',
  notes: notes as readonly NoteId[],
  demonstration: notes.length === 0,
  ...(score === undefined ? {} : { score }),
});
const bar = (start: number, end: number, index: number, score?: string): TimelineEvent => ({
  kind: 'bar',
  step: 0,
  action: 0,
  start,
  end,
  bar: index,
  pass: 0,
  ...(score === undefined ? {} : { score }),
});
const timelineOf = (...events: TimelineEvent[]): Timeline => ({
  seconds: 60,
  steps: [],
  events: events.sort((a, b) => a.start - b.start),
});

describe('what sounds', () => {
  const timeline = timelineOf(
    bar(1, 3, 0),
    bar(3, 5, 1),
    note(1, 2, 60, [0]),
    note(2, 4, 64, [1, 2]),
    note(3, 5, 67, [3]),
    bar(10, 12, 7, 'other.abc'),
    note(10, 12, 60, [40], 'other.abc'),
    {
      kind: 'speech',
      step: 0,
      action: 1,
      start: 20,
      end: 22,
      say: '1.1',
      text: 'one two',
      over: false,
      measured: true,
      words: [
        { text: 'one', from: 0, to: 3, start: 20.1, end: 20.5 },
        { text: 'two', from: 4, to: 7, start: 21, end: 21.5 },
      ],
    },
  );

  test.each([
    [0.99, { notes: [] }],
    [1, { bar: 0, notes: [0] }],
    [2, { bar: 0, notes: [1, 2] }],
    [3.5, { bar: 1, notes: [1, 2, 3] }],
    [4, { bar: 1, notes: [3] }],
    [5, { notes: [] }],
    [11, { score: 'other.abc', bar: 7, notes: [40] }],
    [20.05, { notes: [], say: '1.1' }],
    [20.2, { notes: [], say: '1.1', word: 0 }],
    [20.8, { notes: [], say: '1.1', word: 0 }],
    [21.2, { notes: [], say: '1.1', word: 1 }],
    [22, { notes: [] }],
  ])('at second %d', (at, expected) => {
    expect(whatSounds(timeline, at)).toEqual(expected);
  });
});

describe('music between two moments', () => {
  const timeline = timelineOf(note(1, 2, 60, [0]), note(2, 3, 62, [1]), note(10, 14, 64, [2]));
  const shape = (from: number, until: number) =>
    passagesBetween(timeline, from, until).map(passage =>
      passage.notes.map(({ start, end, midi }) => [midi, start, end]),
    );

  test('falls into passages at its silences', () => {
    expect(shape(0, 60)).toEqual([
      [
        [60, 1, 2],
        [62, 2, 3],
      ],
      [[64, 10, 14]],
    ]);
    const [first] = passagesBetween(timeline, 0, 60);
    expect(first?.start).toBe(1);
    expect(first?.end).toBeGreaterThan(3);
  });

  test('strikes a held note again on the way in, but not its last remainder', () => {
    expect(shape(12, 60)).toEqual([[[64, 12, 14]]]);
    expect(shape(13.95, 60)).toEqual([]);
  });

  test('leaves out what begins at the end or later', () => {
    expect(shape(0, 2)).toEqual([[[60, 1, 2]]]);
  });
});

describe('after a jump', () => {
  const notes = fc.array(
    fc.tuple(
      fc.integer({ min: 0, max: 200 }),
      fc.integer({ min: 1, max: 60 }),
      fc.integer({ min: 40, max: 80 }),
    ),
    { minLength: 1, maxLength: 20 },
  );

  test('what is struck is marked from that moment on, at any pace', () => {
    fc.assert(
      fc.property(
        notes,
        // So long before the end of one of them, in hundredths of a second.
        fc.nat(19),
        fc.integer({ min: 0, max: 60 }),
        fc.constantFrom(0.25, 0.5, 1, 1.5),
        (written, which, left, music) => {
          const passage: TimelineEvent = {
            kind: 'passage',
            step: 0,
            action: 0,
            start: 0,
            end: 26,
            bars: { first: '1', last: '9' },
            as: 'written',
            tempo: 100,
            under: false,
          };
          const events = written.map(([start, length, midi], id) =>
            note(start / 10, (start + length) / 10, midi, [id]),
          );
          const lesson = timelineOf(passage, bar(0, 26, 0), ...events);
          const { timeline, toClock, toLesson } = paced(lesson, { music, speech: 1 });
          const [start = 0, length = 0] = written[which % written.length] ?? [];
          const from = Math.max(0, toClock((start + length) / 10) - left / 100);
          const [first] = passagesBetween(timeline, from, timeline.seconds);
          const struck = (first?.notes ?? []).filter(({ start }) => start === from);
          // Half a frame later, which is when the page looks.
          const { notes: marked } = whatSounds(lesson, toLesson(from + 0.008));
          const pitches = marked.map(id => written[id]?.[2]);
          expect(struck.map(({ midi }) => midi).filter(midi => !pitches.includes(midi))).toEqual([]);
        },
      ),
      { seed: 7 },
    );
  });
});
