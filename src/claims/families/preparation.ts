import { compare, isBefore, midiOf, printPitch } from '../../score/index.js';
import type { Note } from '../../score/index.js';
import { noteEvidence } from '../evidence.js';
import { map, optional, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import type { NoteFinding } from '../note-family.js';
import { atPlace, printPlace } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { isResolved, resolvePlace } from '../place/resolve.js';
import { sayMoment } from '../place/say-moment.js';
import { liesIn } from '../segments.js';
import { struckHead } from '../subjects/sounding.js';
import { printBe } from '../terms/verb.js';
import type { VerbForm } from '../terms/verb.js';

/** A dissonance that is prepared, in a place where that is said. */
export interface PreparedSays {
  readonly kind: 'prepared';
  readonly place?: Place;
}

/** After `is`. */
export const prepared: Parser<PreparedSays> = map(
  sequence(word('prepared'), optional(atPlace)),
  ([, place]) => (place === undefined ? { kind: 'prepared' } : { kind: 'prepared', place }),
);

export const describePrepared = ({ place }: PreparedSays, form: VerbForm): string =>
  `${printBe(form)} prepared${place === undefined ? '' : ` in ${printPlace(place)}`}`;

/** A dissonance is prepared by the same pitch in its voice, held or struck again (claims G3 and G6 of the trade). */
export function checkPrepared(
  note: Note,
  { place }: PreparedSays,
  context: ClaimContext,
): NoteFinding<PreparedSays> {
  const { notes } = context.analysis.score;
  const before = notes.filter(
    each =>
      !each.grace &&
      each.voice === note.voice &&
      isBefore(each.onset, note.onset) &&
      each.tiedFrom === undefined,
  );
  const head = struckHead(note, notes);
  const last = before.at(-1);
  const group = last === undefined ? [] : before.filter(each => compare(each.onset, last.onset) === 0);
  // One written note may be its own preparation: it is struck with one harmony and held into the next.
  const isHeldOn = context.analysis.segments.some(
    segment =>
      isBefore(head.onset, segment.start) && segment.nonChordTones.some(tone => tone.note === head.id),
  );
  const held =
    head.id !== note.id || isHeldOn ? head : group.find(each => midiOf(each.pitch) === midiOf(note.pitch));
  const asked = place === undefined ? undefined : resolvePlace(place, context);
  if (held !== undefined && asked !== undefined && !(isResolved(asked) && liesIn(held.onset, asked.range)))
    return {
      verdict: 'fails',
      code: 'C1042',
      reason: `its preparation, ${printPitch(held.pitch)}, is struck in ${sayMoment(held.onset, context)}`,
      evidence: [noteEvidence('contradicts', held, 'its preparation', context)],
      instead: [{ kind: 'prepared' }],
    };
  return {
    verdict: held === undefined ? 'fails' : 'holds',
    code: held === undefined ? 'C1042' : 'C1041',
    reason:
      held === undefined
        ? `${printPitch(note.pitch)} does not sound in its voice just before`
        : `${printPitch(note.pitch)} sounds in its voice just before`,
    evidence: [
      noteEvidence(held === undefined ? 'contradicts' : 'supports', note, 'the dissonance', context),
      ...(held === undefined ? [] : [noteEvidence('supports', held, 'its preparation', context)]),
    ],
  };
}
