import { describe, expect, test } from 'vitest';
import { sourceText } from '../../src/diagnostics/index.js';
import { readScore } from '../../src/score/index.js';
import { excerptTimeline, noteTimeline } from '../../src/timeline/index.js';

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

  test('is nothing where the bars are not in the piece or no chord can be shown', () => {
    expect(excerptTimeline(input, { first: '9', last: '9', as: 'written' })).toBeUndefined();
    expect(excerptTimeline(input, { first: '1', last: '1', as: 'stack' })).toBeUndefined();
  });

  test('a single note is struck at once, in its bar', () => {
    const note = score.notes[3];
    const timeline = noteTimeline(score, note === undefined ? [] : [note]);
    expect(struck(timeline)).toEqual([[0, 72]]);
    expect(timeline.events.find(({ kind }) => kind === 'bar')).toMatchObject({ bar: 1, start: 0 });
  });
});
