/** What is recorded of what the microphone hears. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { joined } from '../../../src/studio/takes/pcm.js';
import { tape } from '../../../src/studio/takes/tape.js';

describe('a tape', () => {
  it('holds what was heard between start and stop, and the moment before', () => {
    const lengths = fc.array(fc.integer({ min: 1, max: 40 }), { maxLength: 20 });
    fc.assert(
      fc.property(lengths, lengths, fc.integer({ min: 1, max: 60 }), (before, during, roomLength) => {
        let count = 0;
        const block = (length: number): Float32Array => Float32Array.from({ length }, () => (count += 1));
        const own = tape(roomLength, Infinity);
        for (const length of before) own.hear(block(length));
        const started = count;
        own.start();
        for (const length of during) expect(own.hear(block(length))).toBe(true);
        expect(own.length()).toBe(count - started);
        for (let from = 0; from <= count - started; from += 1)
          expect([...joined(own.since(from))]).toEqual(
            Array.from({ length: count - started - from }, (_, n) => started + from + n + 1),
          );
        const { blocks, room } = own.stop();
        expect([...joined(blocks)]).toEqual(
          Array.from({ length: count - started }, (_, n) => started + n + 1),
        );
        const kept = Math.min(roomLength, started);
        expect([...room]).toEqual(Array.from({ length: kept }, (_, n) => started - kept + n + 1));
      }),
    );
  });

  it('ends where it is full, to the sample', () => {
    const own = tape(10, 25);
    own.start();
    expect([10, 10, 10, 10].map(length => own.hear(new Float32Array(length)))).toEqual([
      true,
      true,
      false,
      false,
    ]);
    expect(joined(own.stop().blocks)).toHaveLength(25);
  });

  it('begins anew', () => {
    const own = tape(10, 100);
    own.start();
    own.hear(Float32Array.of(1, 2));
    own.stop();
    own.hear(Float32Array.of(3));
    own.start();
    own.hear(Float32Array.of(4));
    const { blocks, room } = own.stop();
    expect([[...joined(blocks)], [...room]]).toEqual([[4], [3]]);
  });
});
