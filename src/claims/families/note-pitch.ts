import { printPitch } from '../../score/index.js';
import { pitchClassOf } from '../../score/index.js';
import { noteEvidence } from '../evidence.js';
import { map, optional, quiet, sequence } from '../grammar/index.js';
import { noteFamily } from '../note-family.js';
import { article } from '../terms/chord-name.js';
import { isNamed, noteName, printNoteName } from '../terms/note-name.js';
import type { NoteName } from '../terms/note-name.js';
import { be, printBe } from '../terms/verb.js';

/** What a note that is named by its part in the chord or in its line is called. */
export interface NotePitchSays {
  readonly note: NoteName;
}

/** `the root of bar 2 is C`, `the first note of the melody is F#5`: claims A1 and B1 of the trade. */
export const notePitchFamily = noteFamily<NotePitchSays>({
  name: 'pitch of a note',
  examples: ['the leading tone of bar 2 is A#', 'the first note of the top line of bar 1 is D5'],
  phrases: [[be, map(sequence(quiet(optional(article)), noteName), ([, note]) => ({ note }))]],
  print: ({ note }, form) => `${printBe(form)} ${printNoteName(note)}`,
  checkNote: (note, says, _span, context) => {
    const holds = isNamed(note, says.note);
    const name: NoteName = {
      pitchClass: pitchClassOf(note.pitch),
      ...(says.note.octave === undefined ? {} : { octave: note.pitch.octave }),
    };
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C0311' : 'C0313',
      reason: `it is ${printPitch(note.pitch)}${holds ? '' : `, not ${printNoteName(says.note)}`}`,
      evidence: [
        noteEvidence(holds ? 'supports' : 'contradicts', note, `is ${printPitch(note.pitch)}`, context),
      ],
      ...(holds ? {} : { instead: [{ note: name }] }),
    };
  },
}).ofNotes;
