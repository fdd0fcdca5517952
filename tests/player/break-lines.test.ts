import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { breakLines, type BarWidth } from '../../src/player/notation/break-lines.js';

const bar = (width: number, goodEnd = false, mayEnd = true): BarWidth => ({ width, goodEnd, mayEnd });
const room = (line: number) => ({ line, firstHead: 20, head: 10 });

describe('breaking bars into lines', () => {
  test('one line takes what fits', () => {
    expect(breakLines([bar(100), bar(100)], room(400))).toEqual([]);
  });

  test('lines are filled evenly rather than from the top', () => {
    // Six bars of 100, four of which would fit: 3 + 3 looks better than 4 + 2.
    expect(
      breakLines(
        Array.from({ length: 6 }, () => bar(100)),
        room(430),
      ),
    ).toEqual([2]);
  });

  test('a line rather ends where a step ends', () => {
    const bars = Array.from({ length: 7 }, (_, index) => bar(100, index === 3));
    expect(breakLines(bars, room(420))).toEqual([3]);
    expect(
      breakLines(
        bars.map(({ width }) => bar(width)),
        room(420),
      ),
    ).not.toEqual([]);
  });

  test('a bar wider than the line stands alone', () => {
    expect(breakLines([bar(100), bar(900), bar(100)], room(300))).toEqual([0, 1]);
  });

  test('no line ends at a bar line with nothing before it', () => {
    const bars = [bar(1, false, false), ...Array.from({ length: 5 }, () => bar(200))];
    expect(breakLines(bars, room(430))).not.toContain(0);
  });

  test('no bars, no lines', () => {
    expect(breakLines([], room(300))).toEqual([]);
  });

  test('breaks ascend, and every line fits or is one bar', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 40, max: 260 }), { minLength: 1, maxLength: 40 }),
        fc.integer({ min: 300, max: 900 }),
        (widths, line) => {
          const breaks = breakLines(
            widths.map(width => bar(width)),
            room(line),
          );
          expect([...breaks]).toEqual([...new Set(breaks)].sort((a, b) => a - b));
          const starts = [0, ...breaks.map(end => end + 1)];
          starts.forEach((start, index) => {
            const bars = widths.slice(start, starts[index + 1] ?? widths.length);
            const natural = bars.reduce((sum, width) => sum + width, 0) + (start === 0 ? 20 : 10);
            expect(bars.length === 1 || natural * 0.82 <= line + 1e-9).toBe(true);
          });
        },
      ),
      { seed: 1 },
    );
  });
});
