/** How hard keys are struck. Common practice of MIDI: mezzo forte 80, about 16 steps from one dynamic sign to the next. */
import { describe, expect, it } from 'vitest';
import { play, scoreOf, timelineOf } from './lessons.js';

const struck = (music: string, fields: readonly string[] = [], bars = '1'): readonly string[] =>
  timelineOf(scoreOf(music, fields), [play(bars)]).events.flatMap(event =>
    event.kind === 'note' ? [`${String(event.midi)} ${String(event.velocity)}`] : [],
  );

describe('the velocity of a note', () => {
  it('is greatest on the first beat and least between the beats', () => {
    expect(struck('C D E/F/ G |')).toEqual(['60 86', '62 80', '64 80', '65 74', '67 80']);
  });

  it('knows the beats of a compound metre', () => {
    expect(struck('CDE FGA |', ['M:6/8', 'L:1/8'])).toEqual([
      '60 86',
      '62 74',
      '64 74',
      '65 80',
      '67 74',
      '69 74',
    ]);
  });

  it('follows the dynamic sign in force, and a sforzando for one note only', () => {
    expect(struck('C !p!D !sfz!E F |')).toEqual(['60 86', '62 49', '64 112', '65 49']);
  });

  it('is greater under an accent', () => {
    expect(struck('C !accent!D E F |')).toEqual(['60 86', '62 94', '64 80', '65 80']);
  });

  it('leaves the upper voice in front, and takes its sign from any voice where it has none', () => {
    const music = '[V:1] !f! e4 |\n[V:2] C4 |';
    expect(struck(music, ['V:1', 'V:2'])).toEqual(['60 94', '76 102']);
  });

  it('never leaves the range of MIDI', () => {
    expect(struck('!ffff!!accent!C4 |')).toEqual(['60 127']);
  });

  it('is that of the sign before the passage', () => {
    expect(struck('!pp!C4 | D4 |', [], '2')).toEqual(['62 39']);
  });
});
