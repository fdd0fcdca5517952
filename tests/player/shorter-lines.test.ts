/** A score that is written in one line of its source is measured in pieces. */
import { describe, expect, test } from 'vitest';
import { shorterLines } from '../../src/player/notation/shorter-lines.js';

const names: Readonly<Record<string, string>> = { '|': 'bar', s: 'stem', n: 'note', m: 'meter' };
const signs = new Map(Object.entries(names).map(([sign, name]) => [name, sign]));

const line = (...voices: readonly string[]) => ({
  staff: voices.map(voice => ({
    meter: '4/4',
    voices: [[...voice].map(sign => ({ el_type: names[sign] ?? '' }))],
  })),
});
type Line = Partial<ReturnType<typeof line>>;
const told = ({ staff = [] }: Line): readonly string[] =>
  staff.map(
    ({ meter, voices }: { readonly meter?: string; readonly voices: { readonly el_type: string }[][] }) =>
      `${meter === undefined ? '' : 'M '}${voices.map(voice => voice.map(({ el_type }) => signs.get(el_type)).join('')).join()}`,
  );

describe('a long line is cut at its bar lines', () => {
  test.each<[string, readonly Line[], readonly (readonly string[])[]]>([
    ['a short one stays', [line('n|n|n|n|')], [['M n|n|n|n|']]],
    [
      'every voice at the same bar',
      [line('n|n|n|n|n|', 'nn|n|nn|n|n|')],
      [
        ['M n|n|', 'M nn|n|'],
        ['n|n|', 'nn|n|'],
        ['n|', 'n|'],
      ],
    ],
    ['what follows the last bar line', [line('n|n|n|n|n')], [['M n|n|'], ['n|n|'], ['n']]],
    ['nothing but a metre behind it', [line('n|n|n|n|m')], [['M n|n|'], ['n|n|'], ['m']]],
    ['stems keep their direction', [line('sn|n|n|n|n|')], [['M sn|n|'], ['sn|n|'], ['sn|']]],
    [
      'a voice that ends early',
      [line('n|n|n|n|n|', 'n|n|')],
      [
        ['M n|n|', 'M n|n|'],
        ['n|n|', ''],
        ['n|', ''],
      ],
    ],
    ['a heading between the lines', [line('n|'), {}, line('n|')], [['M n|'], [], ['M n|']]],
  ])('%s', (_, lines, pieces) => {
    expect(shorterLines<Line>(lines, 2).map(told)).toEqual(pieces);
  });
});
