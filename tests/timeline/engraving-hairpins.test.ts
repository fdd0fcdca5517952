import { describe, expect, test } from 'vitest';
import { carryHairpins, hairpinInside } from '../../src/timeline/engraving-hairpins.js';

describe('a hairpin stays inside its line', () => {
  test.each([
    ['within', 'M 50 4 L 120.5 0 M 50 4 L 120.5 8', 'M 50 4 L 120.5 0 M 50 4 L 120.5 8'],
    ['coming from the line before', 'M 0 4 L 120 0 M 0 4 L 120 8', 'M 40 4 L 120 0 M 40 4 L 120 8'],
    ['going on in the next line', 'M 50 -4 L 800 0 M 50 -4 L 800 8', 'M 50 -4 L 430 0 M 50 -4 L 430 8'],
    ['ending with the first note', 'M 0 4 L 42 0 M 0 4 L 42 8', ''],
    ['a letter', 'M 0 0c1 2 3 4 5 6', 'M 0 0c1 2 3 4 5 6'],
  ])('%s', (_, path, inside) => {
    expect(hairpinInside(path, 40, 430)).toBe(inside);
  });
});

// Hairpins keep clear of the dynamics at their ends (common practice).
describe('a hairpin keeps off letters', () => {
  const letters = (left: number, right: number, top = 0) => ({ left, right, top, bottom: top + 9 });
  test.each([
    ['where it begins', [letters(44, 62)], 'M 66 4 L 120 0 M 66 4 L 120 8'],
    ['where it ends', [letters(113, 131)], 'M 50 4 L 109 0 M 50 4 L 109 8'],
    ['at both ends', [letters(44, 62), letters(113, 131)], 'M 66 4 L 109 0 M 66 4 L 109 8'],
    ['on another staff', [letters(113, 131, 90)], 'M 50 4 L 120 0 M 50 4 L 120 8'],
    ['further on', [letters(140, 160)], 'M 50 4 L 120 0 M 50 4 L 120 8'],
    ['with no room between them', [letters(44, 90), letters(92, 131)], ''],
  ])('%s', (_, at, inside) => {
    expect(hairpinInside('M 50 4 L 120 0 M 50 4 L 120 8', 40, 430, at)).toBe(inside);
  });
});

describe('a hairpin over several lines begins anew in each that it crosses', () => {
  const line = (marks: string) => {
    const notes = [...marks].map(mark => ({
      el_type: 'note',
      pitches: [],
      decoration: mark === '.' ? [] : [`crescendo${mark}`],
    }));
    return { staff: [{ voices: [[{ el_type: 'clef' }, { el_type: 'note' }, ...notes]] }] };
  };
  test.each<[string, readonly string[], readonly string[]]>([
    ['one in between', ['.(', '..', '.)'], ['.(', '(.', '.)']],
    ['two in between', ['(.', '..', '..', ')..'], ['(.', '(.', '(.', ')..']],
    ['none in between', ['.(', '.)', '..'], ['.(', '.)', '..']],
    ['within a line', ['()', '..', '()'], ['()', '..', '()']],
    ['without an end', ['.(', '..', '..'], ['.(', '..', '..']],
    ['two of them', ['.(', '..', ')(', '..', '.)'], ['.(', '(.', ')(', '(.', '.)']],
    ['a new one where the end of the first is missing', ['.(', '..', '()'], ['.(', '..', '()']],
  ])('%s', (_, before, after) => {
    const lines = before.map(line);
    carryHairpins({ lines });
    expect(lines).toEqual(after.map(line));
  });
});
