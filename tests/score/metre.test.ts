import { describe, expect, it } from 'vitest';
import {
  beatUnitOf,
  fraction,
  metricalWeight,
  onsetAt,
  placeAt,
  printFraction,
  zero,
} from '../../src/score/index.js';
import { read } from './reading.js';

const inMeter = (meter: string, music: string) => read(`X:1\nM:${meter}\nL:1/8\nK:C\n${music}\n`).score;

describe('beat of a metre (common practice)', () => {
  const units: readonly (readonly [string, string])[] = [
    ['4/4', '1/4'],
    ['3/4', '1/4'],
    ['2/2', '1/2'],
    ['3/8', '1/8'],
    ['6/8', '3/8'],
    ['9/8', '3/8'],
    ['12/8', '3/8'],
    ['6/4', '3/4'],
    ['5/8', '1/8'],
    ['3+3/8', '1/8'],
  ];
  it.each(units)('the beat of %s is %s', (meter, unit) => {
    const bar = inMeter(meter, 'C').bars[0];
    expect(bar === undefined ? '' : printFraction(beatUnitOf(bar.meter))).toBe(unit);
  });
});

describe('placeAt and onsetAt', () => {
  const pickup = inMeter('4/4', 'C2|D8|E6|');

  it('counts a pickup by its metre', () => {
    expect(placeAt(pickup, zero)).toEqual({ bar: 0, label: '0', index: 0, beat: fraction(4) });
    expect(placeAt(pickup, fraction(1, 4))).toEqual({ bar: 1, label: '1', index: 1, beat: fraction(1) });
    expect(onsetAt(pickup, 0, fraction(4))).toEqual(zero);
    expect(onsetAt(pickup, 0, fraction(1))).toBeUndefined();
  });

  it('names moments between beats by fractions', () => {
    expect(placeAt(pickup, fraction(5, 8))?.beat).toEqual(fraction(5, 2));
    expect(onsetAt(pickup, 1, fraction(5, 2))).toEqual(fraction(5, 8));
  });

  it('counts other note values where asked', () => {
    const jig = inMeter('6/8', 'CDEFGA|');
    expect(placeAt(jig, fraction(3, 8))?.beat).toEqual(fraction(2));
    expect(placeAt(jig, fraction(3, 8), fraction(1, 8))?.beat).toEqual(fraction(4));
    expect(onsetAt(jig, 1, fraction(4), fraction(1, 8))).toEqual(fraction(3, 8));
  });

  it('tells endings apart by label and takes the first one for a number', () => {
    const endings = inMeter('4/4', '|:C8|1D8:|2E8|]');
    expect(onsetAt(endings, '2b', fraction(1))).toEqual(fraction(2));
    expect(onsetAt(endings, 2, fraction(1))).toEqual(fraction(1));
    expect(onsetAt(endings, '2', fraction(1))).toBeUndefined();
  });

  it('finds the part of a cut bar that holds the beat', () => {
    const cut = inMeter('4/4', 'C8|D6:|E2|F8|');
    expect(onsetAt(cut, 2, fraction(4))).toEqual(fraction(7, 4));
    expect(placeAt(cut, fraction(7, 4))).toEqual({ bar: 2, label: '2', index: 2, beat: fraction(4) });
  });

  it('knows no bar or beat outside the score', () => {
    expect(onsetAt(pickup, 3, fraction(1))).toBeUndefined();
    expect(onsetAt(pickup, 1, fraction(5))).toBeUndefined();
    expect(onsetAt(pickup, 1, zero)).toBeUndefined();
  });
});

describe('metrical weight', () => {
  /** Strengths of the eighths of a bar: the metrical grids of Lerdahl and Jackendoff 1983, chapter 4, each level half of the one above. */
  const grids: readonly (readonly [string, readonly number[]])[] = [
    ['4/4', [1, 1 / 8, 1 / 4, 1 / 8, 1 / 2, 1 / 8, 1 / 4, 1 / 8]],
    ['3/4', [1, 1 / 4, 1 / 2, 1 / 4, 1 / 2, 1 / 4]],
    ['2/4', [1, 1 / 4, 1 / 2, 1 / 4]],
    ['6/8', [1, 1 / 4, 1 / 4, 1 / 2, 1 / 4, 1 / 4]],
    ['9/8', [1, 1 / 4, 1 / 4, 1 / 2, 1 / 4, 1 / 4, 1 / 2, 1 / 4, 1 / 4]],
    ['12/8', [1, 1 / 8, 1 / 8, 1 / 4, 1 / 8, 1 / 8, 1 / 2, 1 / 8, 1 / 8, 1 / 4, 1 / 8, 1 / 8]],
    ['2+3/8', [1, 1 / 4, 1 / 2, 1 / 4, 1 / 4]],
  ];
  it.each(grids)('of the eighths in %s', (meter, weights) => {
    const score = inMeter(meter, 'C'.repeat(weights.length) + '|');
    expect(weights.map((_, eighth) => metricalWeight(score, fraction(eighth, 8)))).toEqual(weights);
  });

  it('of a pickup is that of its place in the metre', () => {
    expect(metricalWeight(inMeter('3/4', 'C2|D6|'), zero)).toBe(1 / 2);
  });

  it('of a triplet is below the beat', () => {
    expect(metricalWeight(inMeter('2/4', '(3CDEF2|'), fraction(1, 12))).toBeLessThan(1 / 4);
  });
});
