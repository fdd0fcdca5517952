import { describe, expect, it } from 'vitest';
import { printFraction, printPitch, type Note, type Score } from '../../src/score/index.js';
import { fixture, orderOf, printFinding, read } from './reading.js';

const printNote = ({ id, voice, pitch, onset, duration, grace, tiedFrom, tiedTo, span }: Note): string =>
  [
    `  ${String(id)} ${voice} ${printPitch(pitch)} at ${printFraction(onset)} for ${printFraction(duration)}`,
    `\`${span.source.text.slice(span.start, span.end)}\``,
    grace ? 'grace' : '',
    tiedFrom === undefined ? '' : `from ${String(tiedFrom)}`,
    tiedTo === undefined ? '' : `into ${String(tiedTo)}`,
  ]
    .filter(part => part !== '')
    .join(' ');

/** The whole score as text: everything of the model but the rests' ranges. */
function printScore(score: Score): string {
  const bars = score.bars.flatMap(({ index, label, start, length, startsAt, meter, key, ending }) => [
    `bar ${label} at ${printFraction(start)} for ${printFraction(length)} from ${printFraction(startsAt)} in ${meter.text}, ${String(key.fifths)} fifths${ending === undefined ? '' : `, ending ${ending.join(' ')}`}`,
    ...score.notes.filter(note => note.bar === index).map(printNote),
    ...score.rests
      .filter(rest => rest.bar === index)
      .map(
        rest => `  ${rest.voice} rest at ${printFraction(rest.onset)} for ${printFraction(rest.duration)}`,
      ),
  ]);
  return [
    `${score.title}, ${score.composer}`,
    ...score.voices.map(voice => JSON.stringify(voice)),
    ...bars,
    `order ${orderOf(score)}`,
    ...score.tempos.map(
      tempo =>
        `tempo ${printFraction(tempo.beat)}=${String(tempo.beatsPerMinute)} at ${printFraction(tempo.onset)}`,
    ),
    ...score.marks.map(mark => `${mark.kind} ${mark.text} at ${printFraction(mark.onset)} in ${mark.voice}`),
    `length ${printFraction(score.length)}`,
    '',
  ].join('\n');
}

// Pitch and onset of every note were compared with abc2midi (scripts/compare-with-abcmidi.ts); the rest was read against
// ABC 2.1 by hand. Refresh with `vitest -u` and read the difference.
describe('the whole score', () => {
  it.each(['two-staves', 'accidentals', 'rhythms', 'voices', 'repeats', 'grace-and-text'])(
    'of %s.abc',
    async name => {
      const { score, findings } = read(fixture(`${name}.abc`));
      const text = [printScore(score), ...findings.map(printFinding)].join('\n');
      await expect(text).toMatchFileSnapshot(`../fixtures/score/${name}.expected.txt`);
    },
  );
});
