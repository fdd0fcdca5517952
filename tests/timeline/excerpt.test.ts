import { describe, expect, test } from 'vitest';
import { sourceText } from '../../src/diagnostics/index.js';
import { analyse } from '../../src/harmony/index.js';
import { fraction, pitchClass, readScore } from '../../src/score/index.js';
import { chordsOfAnalysis, excerptNotes, excerptTimeline, noteTimeline } from '../../src/timeline/index.js';
import type { ChordsIn, NoteEvent } from '../../src/timeline/index.js';

const score = readScore(
  sourceText('a.abc', 'X:1\nM:2/4\nL:1/4\nQ:1/4=60\nK:C\nC E | G c | F A | G2 |]\n'),
).value;
const input = { lesson: {}, score, chordsIn: () => [] };
const struck = (timeline: ReturnType<typeof excerptTimeline>) =>
  timeline?.events.flatMap(event => (event.kind === 'note' ? [[event.start, event.midi]] : []));

describe('an excerpt by itself', () => {
  test('begins at 0 and holds its bars only', () => {
    const timeline = excerptTimeline(input, { first: '2', last: '3', as: 'written' });
    expect(timeline?.seconds).toBe(4);
    // MIDI 1.0: middle C is 60.
    expect(struck(timeline)).toEqual([
      [0, 67],
      [1, 72],
      [2, 65],
      [3, 69],
    ]);
  });

  test('goes round without a gap for as long as it is asked to', () => {
    const timeline = excerptTimeline(input, { first: '4', last: '4', as: 'written', roundFor: 5 });
    expect(timeline?.seconds).toBe(6);
    expect(struck(timeline)).toEqual([
      [0, 67],
      [2, 67],
      [4, 67],
    ]);
    expect(timeline?.events.flatMap(event => (event.kind === 'bar' ? [event.end] : []))).toEqual([2, 4, 6]);
  });

  test('of a part of its bars is cut from the page', () => {
    const held = readScore(
      sourceText('b.abc', 'X:1\nM:3/4\nL:1/4\nQ:1/4=60\nK:C\n{d}C E G | G3 & c ^c d & {e}f2 z |]\n'),
    ).value;
    const heard = (label: string, from: number, to: number) => {
      const part = { start: fraction(from, 4), end: fraction(to, 4) };
      const timeline = excerptTimeline(
        { ...input, score: held },
        { first: label, last: label, as: 'written', part },
      );
      return [
        timeline?.seconds.toFixed(3),
        timeline?.events.flatMap(event =>
          event.kind === 'note' ? [[event.start, event.end, event.midi].map(Math.round)] : [],
        ),
      ];
    };
    // MIDI 1.0: middle C is 60. A beat is a second; the grace note belongs to the first one.
    expect(heard('1', 1, 3)).toEqual([
      '2.000',
      [
        [0, 1, 64],
        [1, 2, 67],
      ],
    ]);
    expect(heard('1', 0, 1)).toEqual(['1.000', [[0, 1, 60]]]);
    expect(heard('2', 4, 5)).toEqual([
      '1.000',
      [
        [0, 1, 67],
        [0, 1, 77],
        [0, 1, 73],
      ],
    ]);
  });

  test('is nothing where the bars are not in the piece or no chord can be shown', () => {
    expect(excerptTimeline(input, { first: '9', last: '9', as: 'written' })).toBeUndefined();
    expect(excerptTimeline(input, { first: '1', last: '1', as: 'stack' })).toBeUndefined();
  });

  test('is played with the pedal where the lesson is', () => {
    const chordsIn: ChordsIn = (_, start, end) => [
      { start, end, tones: [pitchClass(0)], bass: pitchClass(0) },
    ];
    const ends = (pedal: boolean) =>
      excerptTimeline(
        { lesson: { sound: { pedal } }, score, chordsIn },
        { first: '2', last: '2', as: 'written' },
      )?.events.flatMap(event => (event.kind === 'note' ? [event.end] : []));
    // Common practice: the pedal keeps broken chords until the harmony changes.
    expect(ends(false)).toEqual([1, 2]);
    expect(ends(true)).toEqual([2, 2]);
  });

  test('strikes nothing that the notes of all excerpts do not hold', () => {
    const key = ({ voice, midi, velocity }: NoteEvent) => `${voice} ${String(midi)} ${String(velocity)}`;
    const chordsIn = chordsOfAnalysis(() => analyse(score));
    const all = new Set(excerptNotes({ ...input, chordsIn }).map(key));
    for (const as of ['written', 'stack', 'block', 'arpeggio'] as const)
      for (const label of ['1', '2', '3', '4']) {
        const notes =
          excerptTimeline({ ...input, chordsIn }, { first: label, last: label, as })?.events ?? [];
        expect(notes.length).toBeGreaterThan(0);
        for (const note of notes) if (note.kind === 'note') expect(all).toContain(key(note));
      }
    for (const note of noteTimeline(score, score.notes).events)
      if (note.kind === 'note') expect(all).toContain(key(note));
  });

  test('a single note is struck at once, in its bar', () => {
    const note = score.notes[3];
    const timeline = noteTimeline(score, note === undefined ? [] : [note]);
    expect(struck(timeline)).toEqual([[0, 72]]);
    expect(timeline.events.find(({ kind }) => kind === 'bar')).toMatchObject({ bar: 1, start: 0 });
  });
});
