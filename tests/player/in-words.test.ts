import { describe, expect, test } from 'vitest';
import { barInWords, barsInWords, pitchInWords } from '../../src/player/notation/in-words.js';
import type { PageScore } from '../../src/timeline/index.js';

describe('notes in words', () => {
  test.each([
    ['F#4', 'F sharp 4'],
    ['Bb2', 'B flat 2'],
    ['C5', 'C 5'],
    ['F##4', 'F double sharp 4'],
    ['Ebb3', 'E double flat 3'],
    ['D-1', 'D -1'],
    ['C#', 'C sharp'],
  ])('%s', (pitch, words) => {
    expect(pitchInWords(pitch)).toBe(words);
  });

  const score: PageScore = {
    path: 'a.abc',
    title: '',
    composer: '',
    abc: '',
    voices: [
      { id: 'R', name: 'right hand', staff: 0, program: 0 },
      { id: 'L', name: 'left hand', staff: 1, program: 0 },
    ],
    notes: [
      { pitch: 'D3', onset: 0, duration: 0.25, voice: 1, bar: 0, at: 0 },
      { pitch: 'F#5', onset: 0, duration: 0.5, voice: 0, bar: 0, at: 0 },
      { pitch: 'A3', onset: 0.25, duration: 0.25, voice: 1, bar: 0, at: 0 },
      { pitch: 'D4', onset: 0.25, duration: 0.25, voice: 1, bar: 0, at: 0 },
      { pitch: 'E5', onset: 0.625, duration: 0.125, voice: 0, bar: 0, at: 0 },
    ],
    bars: [{ label: '7', start: 0, length: 0.75, beat: 0.25, startsAt: 0, from: 0, to: 0 }],
    segments: [],
    reading: { opens: 0, segments: [], keyAreas: [], cadences: [], pedals: [], sequences: [] },
  };

  test('a bar is told beat by beat, from the top, each chord from low to high', () => {
    expect(barInWords(score, 0)).toEqual([
      'Beat 1. right hand: F sharp 5; left hand: D 3.',
      'Beat 2. left hand: A 3, D 4.',
      'Beat 3.5. right hand: E 5.',
    ]);
  });

  test('voices without names of their own are told by their staff', () => {
    const unnamed = { ...score, voices: score.voices.map(voice => ({ ...voice, name: '' })) };
    expect(barInWords(unnamed, 0)[0]).toBe('Beat 1. staff 1: F sharp 5; staff 2: D 3.');
  });

  test('a pickup is counted from where it stands in the bar', () => {
    const pickup = { ...score, bars: score.bars.map(bar => ({ ...bar, startsAt: 0.5 })) };
    expect(barInWords(pickup, 0)[0]).toMatch(/^Beat 3\./);
  });

  test('a bar that is not there has no words', () => {
    expect(barInWords(score, 3)).toEqual([]);
  });

  test('a stretch of bars tells the harmonies that may be told, and no other', () => {
    const bars = [0, 0.75].map((start, index) => ({
      label: String(7 + index),
      start,
      length: 0.75,
      beat: 0.25,
      startsAt: 0,
      from: 0,
      to: 0,
    }));
    const harmony = { key: 'D major', function: 'tonic' as const, nonChordTones: [] };
    const segments = [
      { ...harmony, start: 0, end: 0.75, chord: 'D', roman: 'I' },
      { ...harmony, start: 0.75, end: 1.25, chord: 'Em/G', roman: 'ii6' },
      { ...harmony, start: 1.25, end: 1.5, chord: 'F#m', roman: 'iii' },
    ];
    const two = { ...score, bars, segments };
    const told = (isTold: (onset: number) => boolean) => barsInWords(two, 0, 1, isTold);
    const size = 'Bars 7 to 8: 2 bars, right hand, left hand.';
    expect(told(() => true)).toEqual([size, 'Key: D major.', 'Bar 7: I (D). Bar 8: ii6 (Em/G), iii (F♯m).']);
    expect(told(onset => onset < 0.5)).toEqual([
      size,
      'Key: D major.',
      'Bar 7: I (D). Bar 8: covered, covered.',
    ]);
    expect(told(() => false)).toEqual([size]);
  });
});
