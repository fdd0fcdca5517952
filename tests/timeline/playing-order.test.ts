import { describe, expect, it } from 'vitest';
import { barsHeard, play, scoreOf, timelineOf } from './lessons.js';

const repeated = scoreOf('C4 | D4 |1 E4 :|2 F4 || G4 | A4 |');

// Common practice: the whole piece with its repeats; a passage once through, with the ending that leads on.
describe('which bars are heard', () => {
  const cases: readonly (readonly [string, string])[] = [
    ['1-5', '1 2 3a 1(1) 2(1) 3b 4 5'],
    ['1-2', '1 2'],
    ['1-4', '1 2 3b 4'],
    ['1-3a', '1 2 3a'],
    ['2-3b', '2 3b'],
    ['3a-3b', '3a 3b'],
    ['3', '3a 3b'],
    ['3-5', '3b 4 5'],
    ['4-5', '4 5'],
  ];
  it.each(cases)('bars %s of a piece with two endings', (range, expected) => {
    expect(barsHeard(repeated, timelineOf(repeated, [play(range)]))).toBe(
      expected.replace(/\(1\)/gu, heard => (range === '1-5' ? heard : '')),
    );
  });

  it('goes on in the ending that leads on, where both hold the first and the last bar', () => {
    const score = scoreOf('C4 |1 D4 | E4 :|2 F4 | G4 || A4 |');
    expect(barsHeard(score, timelineOf(score, [play('2-4')]))).toBe('2b 3b 4');
    expect(barsHeard(score, timelineOf(score, [play('2-3')]))).toBe('2b 3b');
    expect(barsHeard(score, timelineOf(score, [play('2a-3a')]))).toBe('2a 3a');
    expect(barsHeard(score, timelineOf(score, [play('1-3')]))).toBe('1 2b 3b');
  });

  it('starts a range with the upbeat that a repeat sign cuts off the bar before', () => {
    const score = scoreOf('G | C4 | D3 :: A | E4 | F3 |');
    expect(barsHeard(score, timelineOf(score, [play('3-4')]))).toBe('2 3 4');
    expect(barsHeard(score, timelineOf(score, [play('1-2')]))).toBe('0 1 2');
  });
});
