import { describe, expect, test } from 'vitest';
import { end, map, sequence, startReading } from '../../src/claims/grammar/index.js';
import { placeName, printPlace } from '../../src/claims/place/place-name.js';
import { resolvePlace } from '../../src/claims/place/resolve.js';
import { fraction, printFraction } from '../../src/score/index.js';
import { contextOf, scoreOnly } from './asking.js';

const whole = map(sequence(placeName, end), ([place]) => place);

function readPlace(text: string) {
  const { steps, failure } = whole.read(startReading(text), 0);
  const [step] = steps;
  if (step === undefined) throw new Error(`${text}: at ${String(failure.at)} ${failure.expected.join(', ')}`);
  return step.value;
}

describe('a place is read in every form that a teacher types', () => {
  const rows: readonly (readonly [written: string, printed: string])[] = [
    ['bar 5', 'bar 5'],
    ['Bar 5', 'bar 5'],
    ['measure 5', 'bar 5'],
    ['m. 5', 'bar 5'],
    ['m.5', 'bar 5'],
    ['m5', 'bar 5'],
    ['bar 005', 'bar 5'],
    ['bar 8a', 'bar 8a'],
    ['bar 0', 'bar 0'],
    ['bar five', 'bar 5'],
    ['measure thirty-two', 'bar 32'],
    ['measures twenty to twenty-four', 'bars 20-24'],
    ['bars 5-8', 'bars 5-8'],
    ['bars 5–8', 'bars 5-8'],
    ['bars 5 — 8', 'bars 5-8'],
    ['mm. 5-8', 'bars 5-8'],
    ['measures 5 to 8', 'bars 5-8'],
    ['bars 5 through 8', 'bars 5-8'],
    ['bars 5 and 6', 'bars 5-6'],
    ['bars 7-8a', 'bars 7-8a'],
    ['bar 5 beat 3', 'bar 5 beat 3'],
    ['bar 5, beat 3', 'bar 5 beat 3'],
    ['beat 3 of bar 5', 'bar 5 beat 3'],
    ['the downbeat of bar 5', 'bar 5 beat 1'],
    ['bar 5 beats 1-2', 'bar 5 beats 1-2'],
    ['beats 1 and 2 of bar 5', 'bar 5 beats 1-2'],
    ['bar 5 beat 2.5', 'bar 5 beat 2.5'],
    ['bar 5 beat 2 1/2', 'bar 5 beat 2.5'],
    ['bar 5 beat 1.6667', 'bar 5 beat 1 2/3'],
    ['bar 5 beat 1.333', 'bar 5 beat 1 1/3'],
    ['bar 5 beat 3 until bar 6 beat 2', 'bar 5 beat 3 until bar 6 beat 2'],
    ['from bar 5 beat 3 until beat 2 of bar 6', 'bar 5 beat 3 until bar 6 beat 2'],
    ['bar 5 until bar 7', 'bar 5 until bar 7'],
    ['bar 3 beat 1 until bar 3 beat 2.5', 'bar 3 beat 1 until bar 3 beat 2.5'],
    ['the pickup', 'the pickup'],
    ['the upbeat', 'the pickup'],
    ['the anacrusis', 'the pickup'],
    ['the first bar', 'the first bar'],
    ['the last bar', 'the last bar'],
    ['the final measure', 'the last bar'],
    ['the first four bars', 'the first 4 bars'],
    ['the last 4 bars', 'the last 4 bars'],
    ['the last beat of bar 3', 'the last beat of bar 3'],
    ['the end of bar 3', 'the last beat of bar 3'],
    ['the second half of measure 3', 'the second half of bar 3'],
    ['the bars before bar 9', 'the bars before bar 9'],
    ['the measures after measure 9', 'the bars after bar 9'],
    ['the bars up to bar 9', 'the bars up to bar 9'],
    ['the bars from bar 9 to the end', 'the bars from bar 9 on'],
    ['the pickup to bar 1', 'bars 0-1'],
    ['the piece', 'the piece'],
    ['the waltz', 'the waltz'],
    ['the hymn', 'the piece'],
    ['the second phrase', 'the second phrase'],
    ['the opening phrase of the trio', 'the first phrase of the trio'],
    ['the first half of the minuet', 'the first half of the minuet'],
    ['the second strain', 'the second section'],
    ['the consequent phrase in the trio', 'the consequent of the trio'],
    ['the piano introduction', 'the introduction'],
    ['the contrasting section', 'the middle section'],
    ['the whole piece', 'the piece'],
  ];

  test.each(rows)('%s', (written, printed) => {
    expect(printPlace(readPlace(written))).toBe(printed);
    expect(readPlace(printed)).toEqual(readPlace(written));
  });

  test.each([
    ['bars 5 and 9', 0],
    ['bar few', 4],
    ['bar 5 beat x', 11],
    ['bar 5 beat 3 until', 18],
    ['the bar', 7],
    ['bar 1234567', 4],
  ])('%s stops at %i', (written, at) => {
    const { steps, failure } = whole.read(startReading(written), 0);
    expect(steps).toEqual([]);
    expect(failure.at).toBe(at);
  });
});

// Bars 1 to 4 in 4/4 with a pickup of one beat, bar 3 in 6/8, the last bar with two endings.
const analysis = scoreOnly(`X:1
M:4/4
L:1/4
K:C
G | c d e f | g4 | [M:6/8] c3/2 d3/2 | [M:4/4] |: e4 | [1 f4 :| [2 c4 |]
`);
const context = contextOf(analysis);

describe('a place is found in the score', () => {
  // Bar numbers: MusicXML 4.0, measure number and implicit; beats of compound metre: common practice.
  const rows: readonly (readonly [place: string, from: string, to: string])[] = [
    ['the pickup', '0', '1/4'],
    ['bar 0', '0', '1/4'],
    ['bar 0 beat 4', '0', '1/4'],
    ['bar 1', '1/4', '5/4'],
    ['bar 1 beat 1', '1/4', '1/2'],
    ['bar 1 beat 2.5', '5/8', '3/4'],
    ['bar 1 beats 2-3', '1/2', '1'],
    ['bars 1-2', '1/4', '9/4'],
    ['bar 1 beat 3 until bar 2 beat 2', '3/4', '3/2'],
    ['bar 1 beat 3 until bar 2', '3/4', '5/4'],
    ['bar 1 beat 3 until bar 1 beat 5', '3/4', '5/4'],
    ['bar 3 beat 2', '21/8', '3'],
    ['bar 3 beat 1.6667', '5/2', '21/8'],
    ['bar 3 beat 1 until bar 3 beat 3', '9/4', '3'],
    ['bar 5a', '4', '5'],
    ['bar 5b', '5', '6'],
    ['bars 4-5', '3', '6'],
    ['the first bar', '1/4', '5/4'],
    ['the first 2 bars', '1/4', '9/4'],
    ['the last bar', '5', '6'],
    ['the bars before bar 3', '0', '9/4'],
    ['the bars up to bar 3', '0', '3'],
    ['the bars from bar 3 on', '9/4', '6'],
    ['the bars after bar 3', '3', '6'],
    ['the last beat of bar 2', '2', '9/4'],
    ['the last beat of bar 3', '21/8', '3'],
    ['the first half of bar 2', '5/4', '7/4'],
    ['the second half of bar 3', '21/8', '3'],
    ['the piece', '0', '6'],
  ];
  test.each(rows)('%s', (place, from, to) => {
    const found = resolvePlace(readPlace(place), context);
    if (!('range' in found)) throw new Error(JSON.stringify(found));
    expect([printFraction(found.range.start), printFraction(found.range.end)]).toEqual([from, to]);
  });

  test('the lesson may count in another note value', () => {
    const found = resolvePlace(readPlace('bar 3 beat 3'), { ...context, beatUnit: fraction(1, 8) });
    expect(found).toMatchObject({ range: { start: fraction(5, 2), end: fraction(21, 8) } });
  });

  test('a number that endings share means each of them', () => {
    const found = resolvePlace(readPlace('bar 5'), context);
    expect(found).toEqual({
      endings: [
        { kind: 'bars', first: '5a', last: '5a' },
        { kind: 'bars', first: '5b', last: '5b' },
      ],
    });
  });

  test.each([
    ['bar 9', 'C0003', 'there is no bar 9: the piece has bars 1 to 5 and a pickup, bar 0'],
    ['bar 1 beat 5', 'C0003', 'there is no beat 5 in bar 1: bar 1 runs from beat 1 to the end of beat 4'],
    ['bar 0 beat 1', 'C0003', 'there is no beat 1 in bar 0: bar 0 runs from beat 4 to the end of beat 4'],
    ['bar 3 beat 3', 'C0003', 'there is no beat 3 in bar 3: bar 3 runs from beat 1 to the end of beat 2'],
    [
      'bar 1 until bar 1 beat 6',
      'C0003',
      'there is no beat 6 in bar 1: bar 1 runs from beat 1 to the end of beat 4',
    ],
    ['bars 3-1', 'C0004', 'bars 3-1 end before they begin'],
    ['bar 2 beat 3 until bar 2 beat 3', 'C0004', 'bar 2 beat 3 until bar 2 beat 3 ends before it begins'],
    [
      'the bars after bar 5b',
      'C0003',
      'there is nothing after bar 5b: the piece has bars 1 to 5 and a pickup, bar 0',
    ],
    ['the first 9 bars', 'C0003', 'the piece has bars 1 to 5 and a pickup, bar 0'],
  ])('%s is none of this piece', (place, code, problem) => {
    expect(resolvePlace(readPlace(place), context)).toEqual({ code, problem });
  });

  test('a piece without a pickup says so', () => {
    const plain = scoreOnly('X:1\nM:4/4\nL:1/4\nK:C\nc4 | d4 |]\n');
    expect(resolvePlace({ kind: 'pickup' }, contextOf(plain))).toEqual({
      code: 'C0003',
      problem: 'the piece has no pickup: it begins on beat 1 of bar 1',
    });
  });
});
