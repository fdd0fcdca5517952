import { sequenceIn } from '../../harmony/index.js';
import { noteEvidence } from '../evidence.js';
import type { Finding } from '../claim.js';
import { family } from '../family.js';
import type { Line } from '../subjects/line.js';
import { be, have, printBe, verb } from '../terms/verb.js';
import { aSequence, describe, misfit, saysOf } from './sequence.js';
import type { SequenceSays } from './sequence.js';

/** A melodic sequence: a model of one line on other steps, whatever the other lines do. Claim H1 of the trade for a line. */
export const lineSequenceFamily = family<Line, SequenceSays>({
  name: 'sequence in a line',
  examples: ['the soprano of bars 17-20 is a falling sequence by seconds'],
  phrases: [
    [be, aSequence],
    [have, aSequence],
    [verb('forms', 'form'), aSequence],
    [verb('makes', 'make'), aSequence],
  ],
  print: (says, form) => `${printBe(form)} ${describe(says)}`,
  check: (line, says, context, make): Finding<Line> => {
    const notes = line.notes.map(({ note }) => note);
    const found = sequenceIn(notes, line.span.range.start, line.span.range.end);
    const fault =
      found === undefined
        ? `no model of ${line.name} is repeated on another step`
        : misfit(found, says, says.semitones);
    return {
      verdict: fault === undefined ? 'holds' : 'fails',
      code: fault === undefined ? 'C0911' : found === undefined ? 'C0912' : 'C0914',
      reason: fault ?? (found === undefined ? '' : describe(saysOf(found))),
      evidence: notes
        .slice(0, 12)
        .map(note =>
          noteEvidence(fault === undefined ? 'supports' : 'contradicts', note, 'a note of the line', context),
        ),
      ...(found === undefined ? {} : { instead: () => [make(saysOf(found))] }),
    };
  },
});
