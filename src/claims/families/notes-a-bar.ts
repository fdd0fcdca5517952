import { compare, isBefore } from '../../score/index.js';
import { noteEvidence } from '../evidence.js';
import type { Finding } from '../claim.js';
import { family } from '../family.js';
import { map, sequence, word } from '../grammar/index.js';
import { endOf } from '../place/beats.js';
import type { Line } from '../subjects/line.js';
import { count } from '../terms/number.js';
import { have, printHave, verb } from '../terms/verb.js';
import { perBar } from './harmonic-rhythm.js';

/** How many notes a line strikes in each bar. */
interface NotesSays {
  readonly notes: number;
}

const notesABar = map(sequence(count, word('note', 'notes'), perBar), ([notes]): NotesSays => ({ notes }));

/** The pace of a line by its notes in each bar. */
export const notesABarFamily = family<Line, NotesSays>({
  name: 'notes a bar',
  examples: ['the soprano of bars 1-2 has 3 notes a bar'],
  phrases: [
    [have, notesABar],
    [verb('plays', 'play'), notesABar],
  ],
  print: ({ notes }, form) => `${printHave(form)} ${String(notes)} ${notes === 1 ? 'note' : 'notes'} a bar`,
  check: ({ span: { range }, notes: own, name }, { notes }, context, make): Finding<Line> => {
    const bars = context.analysis.score.bars.filter(
      bar => compare(range.start, bar.start) <= 0 && compare(endOf(bar), range.end) <= 0,
    );
    const counted = bars.map(bar => ({
      bar,
      struck: own.filter(
        ({ note }) =>
          note.tiedFrom === undefined &&
          compare(bar.start, note.onset) <= 0 &&
          isBefore(note.onset, endOf(bar)),
      ),
    }));
    const [first] = counted;
    if (first === undefined)
      return {
        verdict: 'undecided',
        code: 'C0005',
        reason: `there is no whole bar in ${name}`,
        evidence: [],
        pointless: true,
      };
    const wrong = counted.find(({ struck }) => struck.length !== notes);
    const shown = wrong ?? first;
    return {
      verdict: wrong === undefined ? 'holds' : 'fails',
      code: wrong === undefined ? 'C1601' : 'C1602',
      reason: `${name} strikes ${String(shown.struck.length)} in ${wrong === undefined ? 'each bar' : `bar ${shown.bar.label}`}`,
      evidence: shown.struck
        .slice(0, 8)
        .map(({ note }) =>
          noteEvidence(wrong === undefined ? 'supports' : 'contradicts', note, 'struck in the bar', context),
        ),
      instead: () => [make({ notes: first.struck.length })],
    };
  },
});
