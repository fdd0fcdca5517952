import type { Subject } from '../claim.js';
import { misfit, tonesIn } from '../families/non-chord-tone.js';
import { map, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { at, placeName, printPlace } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { nameOf, nonChordTone } from '../terms/non-chord-tone.js';
import type { NonChordToneSays } from '../terms/non-chord-tone.js';
import { once } from './note.js';
import type { PointedNotes } from './note.js';
import { rangeOrMoment } from './span.js';
import { subjectAt } from './subject-at.js';

/** `the suspension of bar 15`: the notes of a place that are such non-chord tones. */
const embellishment = (says: NonChordToneSays, place: Place): Subject<PointedNotes> => {
  const print = (): string => `the ${nameOf(says)} of ${printPlace(place)}`;
  return subjectAt({
    content: { tone: says, place },
    print,
    place,
    again: other => embellishment(says, other),
    find: (whole, context) => {
      const [first, ...rest] = once(
        tonesIn(rangeOrMoment(whole), context).flatMap(({ tone, note }) =>
          misfit(tone, note, says, context) === undefined ? [note] : [],
        ),
      );
      if (first === undefined)
        return {
          kind: 'none',
          finding: {
            verdict: 'fails',
            code: 'C0603',
            reason: `there is no ${nameOf(says)} in ${printPlace(place)}`,
            evidence: [],
          },
        };
      return { kind: 'found', subject: { span: whole, notes: [first, ...rest], name: print() } };
    },
  });
};

/** `the 4-3 suspension in bar 15`, `the passing tone on beat 2 of bar 1`. */
export const embellishmentName: Parser<Subject<PointedNotes>> = map(
  sequence(word('the'), nonChordTone, at, placeName),
  ([, says, , place]) => embellishment(says, place),
);
