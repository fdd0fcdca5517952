import { expect, test } from 'vitest';
import { analyse } from '../../src/harmony/index.js';
import { placeAt, printFraction } from '../../src/score/index.js';
import { scoreOf } from './pieces.js';

const piece = (upper: string, lower: string, key = 'C'): string =>
  `X:1\nM:4/4\nL:1/4\nK:${key}\nV:1\n${upper}\nV:2 clef=bass\n${lower}\n`;

/**
 * A model and its copies at another step, real where every interval is kept, else tonal (common practice). Each row: bar and beat of the
 * beginning, statements, steps from one to the next, real or tonal.
 */
test.each([
  [
    'V7 and I of D minor, then of C, note by note',
    piece('[^ceg]2 [^ceg]2 | [dfa]4 | [Bdf]2 [Bdf]2 | [ceg]4 |]', 'A,2 A,2 | D4 | G,2 G,2 | C4 |]'),
    ['1.1 2 statements by -1, tonal'],
  ],
  [
    'the same figure on other degrees, one chord to a bar',
    piece('cege | dfaf | egbg | ceg2 |]', 'C4 | D4 | E4 | C4 |]'),
    [],
  ],
  [
    'a progression that comes again at its own pitch',
    piece('[Bdf]2 [Bdf]2 | [ceg]4 | [Bdf]2 [Bdf]2 | [ceg]4 |]', 'G,2 G,2 | C4 | G,2 G,2 | C4 |]'),
    [],
  ],
  [
    'four pairs of falling fifths',
    piece(
      '[ceg]2 [cfa]2 | [Bdf]2 [Beg]2 | [Ace]2 [Adf]2 | [GBd]2 [Gce]2 |]',
      'C2 F,2 | B,2 E,2 | A,2 D,2 | G,2 C,2 |]',
    ),
    ['1.1 4 statements by -1, tonal'],
  ],
])('%s', (_, abc, expected) => {
  const score = scoreOf(abc);
  const said = analyse(score).sequences.map(({ start, statements, step, real }) => {
    const place = placeAt(score, start);
    const at = place === undefined ? '?' : `${place.label}.${printFraction(place.beat)}`;
    return `${at} ${String(statements)} statements by ${String(step)}, ${real ? 'real' : 'tonal'}`;
  });
  expect(said).toEqual(expected);
});

test('the links of a sequence are no cadences', () => {
  const links = piece(
    '[^ceg]2 [^ceg]2 | [dfa]4 | [Bdf]2 [Bdf]2 | [ceg]4 | [cfa]2 [Bdg]2 | [Gce]4 |]',
    'A,2 A,2 | D4 | G,2 G,2 | C4 | F,2 G,2 | C,4 |]',
  );
  const score = scoreOf(links);
  expect(analyse(score).cadences.map(({ onset }) => placeAt(score, onset)?.label)).toEqual(['6']);
});
