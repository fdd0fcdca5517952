import { describe, expect, test } from 'vitest';
import {
  bassOf,
  judgeChord,
  parseRomanNumeral,
  printRomanNumeral,
  romanFor,
} from '../../src/harmony/index.js';
import { chordNamed, keyNamed } from './reading.js';
import { analysed, momentOf, unitOf } from './pieces.js';

// Hutchinson, Music Theory for the 21st-Century Classroom, Augmented Sixth Chords, Distinguishing (worked out): the three types share the
// sixth and the tonic and differ in one tone.
const types = { It6: 'A', Fr43: 'B', Ger65: 'c' };

describe.each(Object.entries(types))('%s, which doubles or adds %s', (sounding, tone) => {
  const piece = {
    key: 'Am',
    meter: '4/4',
    unit: '1/4',
    voices: [`[Ace]2 [^dA${tone}]2 | [^GBe]4 |`, 'A,,2 F,,2 | E,,4 |'],
  };
  const analysis = analysed(piece);
  const start = momentOf(analysis.score, 1, 3, unitOf(piece));
  const end = momentOf(analysis.score, 2, 1, unitOf(piece));

  test('is heard as such', () => {
    expect(analysis.segments.map(({ roman }) => roman)).toContain(sounding);
  });

  test.each(Object.keys(types))('claimed to be %s', roman => {
    const { tones, ...rest } = chordNamed(roman, 'a');
    const { outcome } = judgeChord(analysis, {
      start,
      end,
      tones,
      bass: bassOf({ tones, ...rest }),
      key: keyNamed('a'),
      roman,
    });
    expect(outcome).toBe(roman === sounding ? 'supported' : 'contradicted');
  });
});

test('an Italian sixth in root position reads back as written', () => {
  const written = romanFor(chordNamed('It53', 'a'), keyNamed('a'));
  const read = parseRomanNumeral(written);
  expect('expected' in read ? read : printRomanNumeral(read)).toBe(written);
  expect(bassOf(chordNamed(written, 'a'))).toBe(chordNamed(written, 'a').root);
});
