/** Who speaks a text, and which is recorded next. */
import { describe, expect, it } from 'vitest';
import type { SpokenPart } from '../../../src/bridge/index.js';
import { isRecorded, nextToRecord, partAt, stateOf } from '../../../src/studio/takes/part-state.js';

describe('who speaks a text', () => {
  const part = (
    id: string,
    take?: Partial<NonNullable<SpokenPart['take']>>,
    paragraph?: number,
  ): SpokenPart => ({
    id,
    step: 0,
    words: '',
    from: Number(id.split('.')[1]?.[0]) * 10,
    to: Number(id.split('.')[1]?.[0]) * 10 + 5,
    seconds: 1,
    recordings: [],
    canUndo: false,
    ...(take === undefined ? {} : { take: { recording: 1, stale: false, ...take } }),
    ...(paragraph === undefined ? {} : { paragraph }),
  });
  const two = (first?: object, second?: object): readonly SpokenPart[] => [
    part('1.2'),
    part('1.2-1', first, 1),
    part('1.2-2', second, 2),
  ];

  it.each([
    ['a take', [part('1.2', {})], { kind: 'taken' }, true],
    ['a take of other words', [part('1.2', { stale: true })], { kind: 'stale' }, false],
    ['a file that cannot be read', [part('1.2', { trouble: 'damaged' })], { kind: 'trouble' }, false],
    ['the voice', [part('1.2')], { kind: 'voice' }, false],
    ['the voice, in paragraphs', two(), { kind: 'voice' }, false],
    ['one of two paragraphs', two({}), { kind: 'paragraphs', taken: 1, all: 2, stale: 0 }, false],
    ['both paragraphs', two({}, {}), { kind: 'paragraphs', taken: 2, all: 2, stale: 0 }, true],
    [
      'both, one of other words',
      two({}, { stale: true }),
      { kind: 'paragraphs', taken: 2, all: 2, stale: 1 },
      false,
    ],
    ['one that cannot be read', two({ trouble: 'x' }), { kind: 'voice' }, false],
  ] as const)('%s', (_, parts, state, recorded) => {
    expect(stateOf(parts[0] as SpokenPart, parts)).toEqual(state);
    expect(isRecorded(parts[0] as SpokenPart, parts)).toBe(recorded);
  });

  const parts = [part('1.1', {}), part('1.2'), part('1.3', {}), part('1.4', { stale: true })];
  it.each([
    ['1.1', '1.2'],
    ['1.2', '1.4'],
    ['1.2-1', '1.4'],
    ['1.4', '1.2'],
    [undefined, '1.2'],
  ])('after %s the next to record is %s', (here, next) => {
    expect(nextToRecord(parts, here)?.id).toBe(next);
  });

  it('there is no next where all is recorded, or the text at hand is the last', () => {
    expect(nextToRecord([part('1.1', {})], '1.1')).toBeUndefined();
    expect(nextToRecord([part('1.1', {}), part('1.2')], '1.2')).toBeUndefined();
  });

  it.each([
    [10, '1.1'],
    [12, '1.1'],
    [17, '1.2'],
    [0, '1.1'],
    [99, '1.4'],
  ])('at the place %d stands %s', (place, id) => {
    expect(partAt(parts, place)?.id).toBe(id);
  });
});
