import { describe, expect, test } from 'vitest';
import { lanesFor } from '../../src/player/notation/lanes.js';

describe('lanes for labels', () => {
  test('labels with room between them share the first lane', () => {
    expect(
      lanesFor(
        [
          { x: 0, width: 10 },
          { x: 20, width: 10 },
          { x: 40, width: 10 },
        ],
        5,
      ),
    ).toEqual([0, 0, 0]);
  });

  test('one that would touch goes below, and the next goes up again', () => {
    expect(
      lanesFor(
        [
          { x: 0, width: 30 },
          { x: 20, width: 10 },
          { x: 40, width: 10 },
        ],
        5,
      ),
    ).toEqual([0, 1, 0]);
  });

  test('three at once take three lanes', () => {
    expect(
      lanesFor(
        [
          { x: 0, width: 90 },
          { x: 10, width: 90 },
          { x: 20, width: 90 },
        ],
        5,
      ),
    ).toEqual([0, 1, 2]);
  });
});
