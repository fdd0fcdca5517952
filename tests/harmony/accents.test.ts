import { expect, test } from 'vitest';
import { printPitch } from '../../src/score/index.js';
import { analysed } from './pieces.js';

// Hutchinson, Music Theory for the 21st-Century Classroom, Non-Chord Tones (from memory): an accented passing tone stands in a stronger place
// than the chord tone that it moves to.
test.each([
  ['on the second beat, moving to the third', '4/4', '1/4', 'c d e2 |', '[C,E,G,]4 |', false],
  ['on the third beat, moving to the fourth', '4/4', '1/4', 'g2 d c |', '[C,E,G,]4 |', true],
  ['between beats of equal weight', '3/4', '1/4', 'c d e |', '[C,E,G,]3 |', false],
  ['on a beat, moving off it', '4/4', '1/8', 'e2 dc c4 |', '[C,E,G,]8 |', true],
  ['off the beat', '4/4', '1/8', 'cd e2 c4 |', '[C,E,G,]8 |', false],
] as const)('a passing tone %s', (_title, meter, unit, upper, lower, accented) => {
  const { score, segments } = analysed({ key: 'C', meter, unit, voices: [upper, lower] });
  const passing = segments
    .flatMap(({ nonChordTones }) => nonChordTones)
    .find(({ note }) => score.notes.some(({ id, pitch }) => id === note && printPitch(pitch) === 'D5'));
  expect(passing?.accented).toBe(accented);
});
