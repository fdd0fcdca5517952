import { describe, expect, it } from 'vitest';
import { speakingScript, transcript } from '../../src/output/index.js';
import { buildTimeline } from '../../src/timeline/index.js';
import { ask, cMajor, lessonOf, play, say, scoreOf, wait } from '../timeline/lessons.js';

const score = scoreOf('C4 | D4 |');
const lesson = lessonOf(
  [
    [play('1-2'), wait(1.5), say('Two bars.\n\nListen to the bass.', '1.1')],
    [
      play('1', { as: 'block', tempo: 50, under: true }),
      say('This is the chord.', '1.2'),
      ask('Which one?', ['C', 'G'], 'C', '1.3'),
    ],
  ],
  { author: 'A teacher', description: 'Two bars\nof music.' },
);
const { value: timeline } = buildTimeline({ lesson, score, chordsIn: cMajor });

describe('the speaking script', () => {
  it('has every cue with its time, the bars and the words', () => {
    expect(speakingScript(lesson, timeline)).toMatchInlineSnapshot(`
      "# Test

      Length 0:22. Pace 150 words a minute.

      A recording of the words at \`take 1.1\` is named \`1.1.wav\` or \`1.1.mp3\` and lies in the folder \`takes\` beside the lesson.

      ## 1. Step 1

      0:00 to 0:08

      **0:00** PLAY bars 1–2 (4.0 s)

      **0:04** WAIT 1.5 s

      **0:06** SAY (2.4 s, estimated), take 1.1

      > Two bars.

      > Listen to the bass.

      ## 2. Step 2

      0:08 to 0:22

      **0:08** PLAY bar 1, the chord struck together, slower (4.0 s), speak over it

      **0:09** SAY over it (1.6 s, estimated), take 1.2

      > This is the chord.

      **0:13** ASK (2.0 s, estimated), take 1.3

      > Which one? C or G?

      **0:15** WAIT 5.0 s for the answer

      **0:20** ANSWER (0.4 s, estimated), take 1.3.answer

      > C
      "
    `);
  });
});

describe('the transcript', () => {
  it('has all that is said and played, and no stage directions', () => {
    expect(transcript(lesson, timeline)).toMatchInlineSnapshot(`
      "# Test

      By A teacher

      Two bars of music.

      ## Step 1 (0:00)

      [music: bars 1–2]

      Two bars.

      Listen to the bass.

      ## Step 2 (0:08)

      [music: bar 1, the chord struck together, slower, under the words]

      This is the chord.

      Question: Which one? C or G?

      Answer: C
      "
    `);
  });
});
