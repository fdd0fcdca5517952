import { describe, expect, it } from 'vitest';
import { add, fraction, pitchClass } from '../../src/score/index.js';
import { buildTimeline, passageText } from '../../src/timeline/index.js';
import type { ChordsIn } from '../../src/timeline/index.js';
import { barsHeard, cMajor, lessonOf, located, play, scoreOf, timelineOf } from './lessons.js';

const score = scoreOf('[V:RH] G | C4 | D4 | E4 |\n[V:T] C | C4 | D4 | E4 |', [
  'V:RH name="Right hand"',
  'V:T',
]);

// Common practice: after a da capo the piece ends where `Fine` stands.
it('the bars of a passage are named as written, also with a da capo', () => {
  const daCapo = scoreOf('C4 | D4 !fine! | E4 | !D.C.alfine! F4 |]');
  const timeline = timelineOf(daCapo, [play('1-4')]);
  expect(barsHeard(daCapo, timeline)).toBe('1 2 3 4 1(1) 2(1)');
  expect(timeline.events.flatMap(event => (event.kind === 'passage' ? [passageText(event)] : []))).toEqual([
    'bars 1–4',
  ]);
});

describe('what is played, in words', () => {
  it.each([
    [play('1-2'), 'the pickup and bars 1–2'],
    [play('0-1'), 'the pickup and bar 1'],
    [play('0'), 'the pickup'],
    [play('2'), 'bar 2'],
    [play('2-3', { voice: located('rh'), tempo: 80 }), 'bars 2–3, Right hand alone, slower'],
    [play('2-3', { voice: located('t'), tempo: 120 }), 'bars 2–3, voice T alone, faster'],
    [play('2', { as: 'stack' }), 'bar 2, the chord stacked in thirds'],
    [play('2', { as: 'block', loop: 2 }), 'bar 2, the chord struck together, 2 times round'],
  ])('%#', (action, words) => {
    const { value } = buildTimeline({ lesson: lessonOf([[action]]), score, chordsIn: cMajor });
    expect(value.events.flatMap(event => (event.kind === 'passage' ? [passageText(event)] : []))).toEqual([
      words,
    ]);
  });

  it('a part of a choir is named by its letter or its word, and told by its word', () => {
    const choir = scoreOf('[V:S] c4 | [V:A] G4 | [V:B] C4 |', ['V:S', 'V:A', 'V:B']);
    const told = ['a', 'alto', 'Bass'].map(voice =>
      timelineOf(choir, [play('1', { voice: located(voice) })]).events.flatMap(event =>
        event.kind === 'passage' ? [passageText(event)] : [],
      ),
    );
    expect(told).toEqual([['bar 1, alto alone'], ['bar 1, alto alone'], ['bar 1, bass alone']]);
  });

  it('counts the chords of a demonstration', () => {
    const two: ChordsIn = (_, start, end) => {
      const triad = [0, 4, 1].map(pitchClass);
      return [
        { start, end: add(start, fraction(1)), tones: triad, bass: pitchClass(0) },
        { start: add(start, fraction(1)), end, tones: triad, bass: pitchClass(4) },
      ];
    };
    const each = (as: 'block' | 'arpeggio') =>
      buildTimeline({ lesson: lessonOf([[play('2-3', { as })]]), score, chordsIn: two }).value.events.flatMap(
        event => (event.kind === 'passage' ? [passageText(event)] : []),
      );
    expect(each('block')).toEqual(['bars 2–3, each chord struck together']);
    expect(each('arpeggio')).toEqual(['bars 2–3, the chords broken upward']);
  });
});
