import { midiOf, printPitch } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { noteEvidence } from '../evidence.js';
import { family } from '../family.js';
import { map, word } from '../grammar/index.js';
import type { Line } from '../subjects/line.js';
import { printVerb, verb } from '../terms/verb.js';
import { nothingSounds } from './judged.js';

/** A line that keeps its pitch, held or struck again. */
interface Still {
  readonly still: true;
}

const says = (): Still => ({ still: true });
const itsNote = map(
  word(
    'its note',
    'its pitch',
    'the same note',
    'the same pitch',
    'one note',
    'a single note',
    'one pitch',
    'on one note',
    'on the same note',
    'on a single note',
    'still',
    'the same',
  ),
  says,
);

/** A line that does not move: claim I1 of the trade. */
export const stillLineFamily = family<Line, Still>({
  name: 'line that stays',
  examples: ['the left hand of bar 8 beat 1 stays on one note'],
  phrases: [
    ...(
      [
        ['keeps', 'keep'],
        ['stays', 'stay'],
        ['holds', 'hold'],
        ['repeats', 'repeat'],
        ['remains', 'remain'],
        ['plays', 'play'],
        ['sings', 'sing'],
      ] as const
    ).map(([singular, plural]) => [verb(singular, plural), itsNote] as const),
  ],
  print: (_, form) => `${printVerb('stays', 'stay', form)} on one note`,
  check: ({ notes, name }, _, context): Finding<Line> => {
    const [first] = notes;
    if (first === undefined) return nothingSounds(name);
    const other = notes.find(({ note }) => midiOf(note.pitch) !== midiOf(first.note.pitch));
    return {
      verdict: other === undefined ? 'holds' : 'fails',
      code: other === undefined ? 'C1101' : 'C1102',
      reason:
        other === undefined
          ? `${name} has ${printPitch(first.note.pitch)} alone`
          : `${name} goes from ${printPitch(first.note.pitch)} to ${printPitch(other.note.pitch)}`,
      evidence: [first, ...(other === undefined ? [] : [other])].map(({ note }) =>
        noteEvidence(other === undefined ? 'supports' : 'contradicts', note, 'a note of the line', context),
      ),
    };
  },
});
