import { describe, expect, test } from 'vitest';
import { isSettled, readProgress, untouched } from '../../src/player/progress.js';

describe('progress as it is kept', () => {
  test.each([null, '', '{', '[]x', 'null', '7', '"text"', '{"step":-1,"heard":7,"answers":[]}'])(
    '%s is as at first',
    text => {
      expect(readProgress(text)).toEqual(untouched);
    },
  );

  test('what was written is read again, and what does not belong is left out', () => {
    const kept = {
      step: 2,
      heard: [0, 1, 'x', -3, 1.5],
      answers: {
        '1.1': { given: 'V7', tries: 2, right: true, shown: false },
        '2.2': { given: 7, tries: 1, right: true },
        '3.1': { given: 'ii', tries: 1, right: false },
      },
    };
    expect(readProgress(JSON.stringify(kept))).toEqual({
      step: 2,
      heard: [0, 1],
      answers: {
        '1.1': { given: 'V7', tries: 2, right: true, shown: false },
        '3.1': { given: 'ii', tries: 1, right: false, shown: false },
      },
    });
  });

  test('a question is settled once it is answered or its answer was shown', () => {
    expect(isSettled(undefined)).toBe(false);
    expect(isSettled({ given: 'ii', tries: 3, right: false, shown: false })).toBe(false);
    expect(isSettled({ given: 'V', tries: 1, right: true, shown: false })).toBe(true);
    expect(isSettled({ given: '', tries: 0, right: false, shown: true })).toBe(true);
  });
});
