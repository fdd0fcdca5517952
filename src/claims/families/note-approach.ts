import { compare, isBefore, printPitch } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import { noteEvidence } from '../evidence.js';
import { choice, map, optional, quiet, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { noteFamily } from '../note-family.js';
import { isStep, sayStep, stepBetween } from '../subjects/line-steps.js';
import { soundEnd, struckHead } from '../subjects/sounding.js';
import { be, printBe, verb } from '../terms/verb.js';

/** How the voice of a note comes to it or leaves it. */
export interface ApproachSays {
  readonly side: 'approached' | 'left';
  readonly by: 'step' | 'leap';
  readonly up?: boolean;
}

const by = wordsFor<ApproachSays['by']>([
  ['step', 'by step', 'stepwise', 'by a step', 'by stepwise motion'],
  ['leap', 'by leap', 'by a leap', 'by skip', 'by a skip', 'by jump'],
]);
/** Where it comes from; what comes from below goes up. */
const comingFrom = wordsFor<boolean>([
  [true, 'from below'],
  [false, 'from above'],
]);
const goingTo = wordsFor<boolean>([
  [true, 'upward', 'upwards', 'up', 'ascending'],
  [false, 'downward', 'downwards', 'down', 'descending'],
]);
const approach: Parser<ApproachSays> = map(
  sequence(word('approached', 'reached', 'entered', 'prepared'), by, optional(comingFrom)),
  ([, how, up]) => ({ side: 'approached', by: how, ...(up === undefined ? {} : { up }) }),
);
const departure: Parser<ApproachSays> = choice(
  map(sequence(word('left', 'quitted', 'quit'), by, optional(goingTo)), ([, how, up]) => ({
    side: 'left',
    by: how,
    ...(up === undefined ? {} : { up }),
  })),
);
const away: Parser<ApproachSays> = map(
  sequence(word('away'), optional(goingTo), quiet(optional(word('instead of resolving')))),
  ([, up]) => ({ side: 'left', by: 'leap', ...(up === undefined ? {} : { up }) }),
);

/** The note of the same voice that ends where another begins, or begins where it ends; the nearest where it plays several. */
function neighbourOf(note: Note, side: ApproachSays['side'], { analysis }: ClaimContext): Note | undefined {
  const { score } = analysis;
  const head = struckHead(note, score.notes);
  const own = score.notes.filter(each => each.voice === note.voice && !each.grace && each.id !== head.id);
  const distance = (each: Note): number => Math.abs(stepBetween(head, each)?.size.semitones ?? 0);
  const candidates =
    side === 'approached'
      ? own.filter(each => isBefore(each.onset, head.onset))
      : own.filter(each => each.tiedFrom === undefined && compare(soundEnd(head, score), each.onset) <= 0);
  const edge = candidates.reduce<Note | undefined>((best, each) => {
    if (best === undefined) return each;
    const order = compare(each.onset, best.onset) * (side === 'left' ? 1 : -1);
    return order < 0 || (order === 0 && distance(each) < distance(best)) ? each : best;
  }, undefined);
  return edge === undefined ? undefined : struckHead(edge, score.notes);
}

const families = noteFamily<ApproachSays>({
  name: 'approach and departure',
  examples: ['the F#5 of bar 17 is approached by leap', 'the C#5 of bar 3 beat 1 is left by step'],
  phrases: [
    [be, approach],
    [be, departure],
    ...['leaps', 'jumps', 'skips'].map(each => [verb(each, each.slice(0, -1)), away] as const),
  ],
  print: ({ side, by: how, up }, form) =>
    `${printBe(form)} ${side} by ${how}${
      up === undefined
        ? ''
        : side === 'approached'
          ? ` from ${up ? 'below' : 'above'}`
          : up
            ? ' upward'
            : ' downward'
    }`,
  checkNote: (note, says, _span, context) => {
    const other = neighbourOf(note, says.side, context);
    const head = struckHead(note, context.analysis.score.notes);
    const step =
      other === undefined
        ? undefined
        : says.side === 'approached'
          ? stepBetween(other, head)
          : stepBetween(head, other);
    const holds =
      step !== undefined &&
      isStep(step) === (says.by === 'step') &&
      (says.up === undefined || step.up === says.up);
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C1101' : 'C1102',
      reason:
        step !== undefined
          ? sayStep(step)
          : other === undefined
            ? `nothing ${says.side === 'left' ? 'follows' : 'comes before'} ${printPitch(note.pitch)} in its voice`
            : `${printPitch(note.pitch)} is ${says.side === 'left' ? 'struck again' : 'repeated'}`,
      evidence: [head, ...(other === undefined ? [] : [other])].map(each =>
        noteEvidence(
          holds ? 'supports' : 'contradicts',
          each,
          each === head ? 'the note' : says.side === 'left' ? 'the note after it' : 'the note before it',
          context,
        ),
      ),
      ...(step === undefined
        ? {}
        : { instead: [{ side: says.side, by: isStep(step) ? ('step' as const) : ('leap' as const) }] }),
    };
  },
});

/** How a note is approached and left: what tells the kinds of non-chord tones apart (Hutchinson, Non-Chord Tones, table). */
export const noteApproachFamily = families.ofNotes;
