/** Instruments of a lesson, the pedal, and passages that go round. */
import { describe, expect, it } from 'vitest';
import type { Lesson, LessonSound } from '../../src/lesson/index.js';
import { add, fraction, pitchClass } from '../../src/score/index.js';
import { buildTimeline, instrumentationOf, passageText } from '../../src/timeline/index.js';
import type { ChordsIn } from '../../src/timeline/index.js';
import { barsHeard, cMajor, lessonOf, located, play, say, scoreOf, strikes, timelineOf } from './lessons.js';

const sound = (more: Partial<LessonSound>): Partial<Lesson> => ({
  sound: { instrument: 'piano', voices: [], pedal: false, ...more },
});

describe('the instruments of a lesson', () => {
  const score = scoreOf('[V:S] e4 & c4 |\n[V:T] C4 |', ['V:S name="Soprano"', 'V:T name="Tenor"']);
  const of = (more?: Partial<LessonSound>) =>
    instrumentationOf(lessonOf([], more === undefined ? {} : sound(more)), score);

  it('are the piano where nothing is said', () => {
    expect(of()).toEqual({ value: { all: 'piano' }, diagnostics: [] });
  });

  it('go to voices by id or printed name, with their overlays; demonstrations stay on the piano', () => {
    const { value, diagnostics } = of({
      instrument: 'strings',
      voices: [{ voice: located('soprano'), instrument: 'violin' }],
    });
    expect(diagnostics).toEqual([]);
    expect(value.all).toBe('strings');
    const overlay = score.voices.find(voice => voice.overlayOf !== undefined)?.id ?? '';
    expect(value.voices).toEqual({ demonstration: 'piano', S: 'violin', [overlay]: 'violin' });
  });

  it('T0006: an instrument for a voice that is not there is left out, and the voices are named', () => {
    const { value, diagnostics } = of({ voices: [{ voice: located('alto'), instrument: 'viola' }] });
    expect(value.voices).toEqual({ demonstration: 'piano' });
    expect(diagnostics.map(({ code, help }) => [code, help])).toEqual([
      ['T0006', 'the voices are `S` (Soprano), `T` (Tenor)'],
    ]);
  });
});

// Common practice: the pedal is changed with the harmony. 120 quarters a minute, one quarter = 0.5 s.
describe('the pedal', () => {
  const broken = scoreOf('CEGc | DFAd |');
  const c = { tones: [pitchClass(0)], bass: pitchClass(0) };
  const halves: ChordsIn = (_, start, end) => [
    { start, end: add(start, fraction(1, 2)), ...c },
    { start: add(start, fraction(1, 2)), end, ...c },
  ];
  const heard = (pedal: boolean, chordsIn = cMajor) =>
    strikes(timelineOf(broken, [], { lesson: lessonOf([[play('1-2')]], sound({ pedal })), chordsIn }));

  it('keeps the tones of a broken chord until the bar ends', () => {
    expect(heard(true)).toEqual(['60 0-2', '64 0.5-2', '67 1-2', '72 1.5-2', '62 2-4', '65 2.5-4', '69 3-4', '74 3.5-4']); // prettier-ignore
    expect(heard(false)).toEqual(['60 0-0.5', '64 0.5-1', '67 1-1.5', '72 1.5-2', '62 2-2.5', '65 2.5-3', '69 3-3.5', '74 3.5-4']); // prettier-ignore
  });

  it('is changed where the harmony changes within the bar', () => {
    expect(heard(true, halves).slice(0, 4)).toEqual(['60 0-1', '64 0.5-1', '67 1-2', '72 1.5-2']);
  });
});

describe('a passage that goes round', () => {
  const score = scoreOf('C2 D2- | D2 E2 |');

  it('is played again in time, without a break, within one passage', () => {
    const timeline = timelineOf(score, [play('1-2', { loop: 2 })]);
    expect(strikes(timeline)).toEqual(['60 0-1', '62 1-3', '64 3-4', '60 4-5', '62 5-7', '64 7-8']);
    expect(barsHeard(score, timeline)).toBe('1 2 1(1) 2(1)');
    const passages = timeline.events.filter(event => event.kind === 'passage');
    expect(passages.map(passageText)).toEqual(['bars 1–2, 2 times round']);
  });

  it('may be played several times, each with a silence before it', () => {
    const timeline = timelineOf(scoreOf('C4 |'), [play('1', { loop: 2, times: 2 })]);
    expect(strikes(timeline)).toEqual(['60 0-2', '60 2-4', '60 4.7-6.7', '60 6.7-8.7']);
  });

  it('does the same with demonstrations, and carries the words that are spoken over it', () => {
    expect(strikes(timelineOf(score, [play('1', { as: 'block', loop: 2 })]))).toEqual([
      '48 0-2', '52 0-2', '55 0-2', '48 2-4', '52 2-4', '55 2-4',
    ]); // prettier-ignore
    const words = say('Over it all.');
    const lesson = lessonOf([[play('1-2', { loop: 3, under: true }), words]]);
    const { value, diagnostics } = buildTimeline({ lesson, score, chordsIn: cMajor });
    expect(diagnostics).toEqual([]);
    expect(value.events.filter(event => event.kind === 'speech' && event.over)).toHaveLength(1);
  });
});
