/** Captions of any narration: whole, in order, readable, and never broken inside a name. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { belongTogether } from '../../src/timeline/caption-units.js';
import { captionCues, defaultCaptionStyle } from '../../src/timeline/index.js';
import { play, say, scoreOf, timelineOf } from './lessons.js';

const score = scoreOf('C4 | D4 |');
const seed = 20260;
const phrase = fc.constantFrom(
  'the bass', 'bar 12', 'bars 5-8', 'V7/V', 'V65 of V', 'in B flat minor', 'F sharp', 'a half-diminished seventh chord', 'a perfect authentic cadence', 'rises',
  'and falls', 'C, E, G', 'the cadential six-four', 'viio7/ii in C major', 'to the dominant of the dominant', 'it', 'of', 'N6', 'mm. 12-15', 'slowly', 'counterpointwise',
); // prettier-ignore
const sentence = fc
  .tuple(fc.array(phrase, { minLength: 1, maxLength: 14 }), fc.constantFrom('.', '?', ', then', ':', '.\n\n'))
  .map(([words, end]) => `${words.join(' ')}${end}`);
const narration = fc.array(sentence, { minLength: 1, maxLength: 6 }).map(parts => parts.join(' ').trim());

describe('captions of any narration', () => {
  it('hold every word once, in lines that fit and do not break a name', () => {
    fc.assert(
      fc.property(narration, text => {
        const timeline = timelineOf(score, [play('1'), say(text), play('2')]);
        const cues = captionCues(timeline).filter(cue => cue.say !== undefined);
        const lines = cues.flatMap(cue => cue.lines);
        expect(lines.join(' ')).toBe(text.replace(/\s+/gu, ' '));
        for (const cue of cues) expect(cue.lines.length).toBeLessThanOrEqual(2);
        lines.forEach((line, index) => {
          const [last = '', next = ''] = [line.split(' ').at(-1), lines[index + 1]?.split(' ')[0]];
          expect(belongTogether(last, next), `${line} | ${lines[index + 1] ?? ''}`).toBe(false);
          const words = line.split(' ');
          const isOneName = words.every((word, at) => at === 0 || belongTogether(words[at - 1] ?? '', word));
          if (!isOneName) expect(line.length, line).toBeLessThanOrEqual(defaultCaptionStyle.lineLength);
        });
      }),
      { seed, numRuns: 120 },
    );
  });

  it('follow one another without overlap, from the first word to at most 1.5 s after the last', () => {
    fc.assert(
      fc.property(narration, text => {
        const timeline = timelineOf(score, [say(text), play('2')]);
        const cues = captionCues(timeline);
        cues.forEach((cue, index) => {
          expect(cue.end).toBeGreaterThan(cue.start);
          expect(cues[index + 1]?.start ?? timeline.seconds).toBeGreaterThanOrEqual(cue.end);
        });
        const words = timeline.events.flatMap(event => (event.kind === 'speech' ? event.words : []));
        const spoken = cues.filter(cue => cue.say !== undefined);
        expect(spoken[0]?.start).toBe(words[0]?.start);
        expect((spoken.at(-1)?.end ?? 0) - (words.at(-1)?.end ?? 0)).toBeLessThanOrEqual(1.5);
      }),
      { seed, numRuns: 120 },
    );
  });
});
