import { describe, expect, it } from 'vitest';
import { rehearsal } from '../../src/output/index.js';
import { buildTimeline } from '../../src/timeline/index.js';
import { ask, cMajor, lessonOf, play, say, scoreOf, wait } from '../timeline/lessons.js';

const score = scoreOf('C4 | D4 |');
const spoken = say('Measured words.');
const lesson = lessonOf([
  [play('1-2'), wait(1.5), spoken],
  [
    play('1', { as: 'block', tempo: 50, under: true }),
    say('These words are longer than the narrow terminal that they are shown on.'),
    ask('Which one?', [], 'C'),
  ],
]);
const speech = new Map([[spoken.kind === 'say' ? spoken.id : '', { seconds: 2, words: [] }]]);
const { value: timeline } = buildTimeline({ lesson, score, chordsIn: cMajor, speech });

describe('the rehearsal', () => {
  it('shows when everything happens and how long it takes', () => {
    expect(rehearsal(lesson, timeline, { width: 60 })).toMatchInlineSnapshot(`
      "  1  Step 1
             0:00     8.4 s  the whole step
             0:00     4.0 s  play bars 1–2
             0:04     1.5 s  wait
             0:06     2.0 s  say Measured words.

        2  Step 2
             0:08    14.7 s  the whole step
             0:08     6.0 s  play bar 1, the chord struck togethe…
             0:09    ~5.2 s  + say These words are longer than th…
             0:15    ~0.8 s  ask Which one?
             0:16     5.0 s  think
             0:21    ~0.4 s  answer C

      the lesson lasts about 0:23: music 43 %, talk 36 %
      "
    `);
  });

  it('can be limited to a step', () => {
    const one = rehearsal(lesson, timeline, { width: 60, step: 2 });
    expect(one).not.toContain('Step 1');
    expect(one).toContain('Step 2');
    expect(one).toContain('the lesson lasts about 0:23');
  });

  it('keeps to the width', () => {
    for (const line of rehearsal(lesson, timeline, { width: 50 }).split('\n'))
      expect(line.length).toBeLessThanOrEqual(50);
  });
});
