import { describe, expect, it } from 'vitest';
import { putBars } from '../../src/studio/put-bars.js';

const one = { first: '5', last: '5' };
const several = { first: '5', last: '8b' };

describe('bars that are pointed at in the score', () => {
  it.each([
    ['bars: |', several, 'bars: 5-8b'],
    ['bars:|', one, 'bars: 5'],
    ['script:\n  - play: |', several, 'script:\n  - play: 5-8b'],
    ['- play: { bars: |, as: block }', one, '- play: { bars: 5, as: block }'],
    ['- bar |', one, '- bar 5'],
    ['- bar |', several, '- bars 5-8b'],
    ['- bars | are in D major', one, '- bar 5 are in D major'],
    ['- the bass of bar |', one, '- the bass of bar 5'],
    [
      'say: |-\n  Hear [this]{bar ¦}.'.replace('|-', '>-').replace('¦', '|'),
      one,
      'say: >-\n  Hear [this]{bar 5}.',
    ],
    ['because: bar |', one, 'because: bar 5'],
  ])('are written where %j awaits them', (marked, bars, after) => {
    const cursor = marked.indexOf('|');
    const text = marked.replace('|', '');
    const edit = putBars(text, cursor, bars);
    expect(edit === undefined ? '' : text.slice(0, edit.from) + edit.insert + text.slice(edit.to)).toBe(
      after,
    );
    expect(edit === undefined ? -1 : edit.cursor).toBe((edit?.from ?? 0) + (edit?.insert.length ?? 0));
  });

  it.each([
    'title: |',
    '|bars: 1',
    'bars: 1|',
    'bars: |1-4',
    'say: >-\n  In the next bar |',
    'say: >-\n  [that bar]{bar 3 is i} and the bar |',
    '- bar 3|',
  ])('change nothing at %j', marked => {
    expect(putBars(marked.replace('|', ''), marked.indexOf('|'), one)).toBeUndefined();
  });
});
