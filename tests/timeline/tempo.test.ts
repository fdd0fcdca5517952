/** The tempo map: marks of the score, the tempo of the lesson, repeats, fermatas. Times are worked out by hand. */
import { describe, expect, it } from 'vitest';
import { buildTimeline, defaultBeatsPerMinute } from '../../src/timeline/index.js';
import { cMajor, lessonOf, play, scoreOf, strikes } from './lessons.js';

/** Strikes of bars of a score at the lesson's tempo, or at the score's own where it is absent. */
function heard(
  music: string,
  bars: string,
  tempo?: number,
  fields: readonly string[] = [],
): readonly string[] {
  const { tempo: ofTests, ...plain } = lessonOf([[play(bars)]]);
  const own = tempo === undefined ? plain : { ...plain, tempo };
  expect(ofTests).toBe(120);
  return strikes(buildTimeline({ lesson: own, score: scoreOf(music, fields), chordsIn: cMajor }).value);
}

describe('the tempo', () => {
  // ABC standard 2.1, 3.1.8: Q:1/4=60 is sixty quarter notes a minute; section 3.2: it may change within the tune.
  const changing = 'C2 D2 | [Q:1/4=60] E2 F2 |';

  it('is that of the score, and changes where the score says so', () => {
    expect(heard(changing, '1-2', undefined, ['Q:1/4=120'])).toEqual([
      '60 0-1',
      '62 1-2',
      '64 2-4',
      '65 4-6',
    ]);
  });

  it('changes within a bar, also under a note that is held', () => {
    // The second half of the whole note is at half the speed: 1 s and 2 s.
    const held = heard('[V:1] C4 |\n[V:2] E2 [Q:1/4=60] F2 |', '1', undefined, ['Q:1/4=120', 'V:1', 'V:2']);
    expect(held).toEqual(['60 0-3', '64 0-1', '65 1-3']);
  });

  it('of a passage is the one in force at its first bar', () => {
    expect(heard(changing, '2', undefined, ['Q:1/4=120'])).toEqual(['64 0-2', '65 2-4']);
  });

  it('of the lesson replaces the first mark, and later ones keep their relation to it', () => {
    expect(heard(changing, '1-2', 240, ['Q:1/4=120'])).toEqual(['60 0-0.5', '62 0.5-1', '64 1-2', '65 2-3']);
  });

  it('goes back with a repeat', () => {
    expect(heard('|: C4 | [Q:1/4=60] D4 :| E4 |', '1-3', undefined, ['Q:1/4=120'])).toEqual([
      '60 0-2', '62 2-6', '60 6-8', '62 8-12', '64 12-16',
    ]); // prettier-ignore
  });

  it('is a walking pace where nobody names one', () => {
    const [first] = heard('C4 |', '1');
    expect(first).toBe(`60 0-${String(Math.round((4 * 60 * 1000) / defaultBeatsPerMinute) / 1000)}`);
  });
});

// Common practice: a fermata makes its note half as long again to twice as long; all voices wait for it.
describe('a fermata', () => {
  it('holds every voice, whichever carries it', () => {
    const one = heard('[V:1] C2 !fermata!D2 | E4 |\n[V:2] C2 D2 | E4 |', '1-2', 120, ['V:1', 'V:2']);
    expect(one).toEqual(['60 0-1', '60 0-1', '62 1-2.75', '62 1-2.75', '64 2.75-4.75', '64 2.75-4.75']);
  });

  it('in both voices holds once', () => {
    const both = heard('[V:1] C2 !fermata!D2 |\n[V:2] C2 !fermata!D2 |', '1', 120, ['V:1', 'V:2']);
    expect(both).toEqual(['60 0-1', '60 0-1', '62 1-2.75', '62 1-2.75']);
  });

  it('may stand over a rest', () => {
    expect(heard('C2 !fermata!z D |', '1', 120)).toEqual(['60 0-1', '62 1.875-2.375']);
  });

  it('is held in each round and at each tempo', () => {
    expect(heard('|: C2 !fermata!D2 :|', '1', 60)).toEqual(['60 0-2', '62 2-5.5', '60 5.5-7.5', '62 7.5-11']);
  });
});
