import { expect, test } from 'vitest';
import { voiceInWords } from '../../src/player/notation/voice-in-words.js';

const voice = (name: string, staff: number) => ({ name, staff });

test.each([
  ['names of their own', [voice('Right hand', 0), voice('Left hand', 1)], ['Right hand', 'Left hand']],
  ['no names', [voice('', 0), voice('', 1)], ['staff 1', 'staff 2']],
  ['one name for both', [voice('Piano', 0), voice('Piano', 1)], ['staff 1', 'staff 2']],
  [
    'a name over a choir of four on two staves',
    [voice('Choir', 0), voice('', 0), voice('', 1), voice('', 1)],
    ['upper voice of staff 1', 'lower voice of staff 1', 'upper voice of staff 2', 'lower voice of staff 2'],
  ],
  ['two named ones on one staff', [voice('Soprano', 0), voice('Alto', 0)], ['Soprano', 'Alto']],
  [
    'three on one staff',
    [voice('', 0), voice('', 0), voice('', 0)],
    ['voice 1 of staff 1', 'voice 2 of staff 1', 'voice 3 of staff 1'],
  ],
  [
    'a second layer',
    [voice('Right hand', 0), voice('Right hand', 0), voice('Left hand', 1)],
    ['upper voice of Right hand', 'lower voice of Right hand', 'Left hand'],
  ],
  ['the one of two that has a name', [voice('Song', 0), voice('', 1)], ['Song', 'staff 2']],
])('voices with %s', (_, voices, words) => {
  expect(voices.map((__, index) => voiceInWords(voices, index))).toEqual(words);
});
