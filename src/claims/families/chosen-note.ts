import { compare } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { at, placeName, printPlace } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { sayMoment } from '../place/say-moment.js';
import { severalEndings } from '../range-of.js';
import { lineName, printLine } from '../subjects/line-name.js';
import { pointed } from '../subjects/note.js';
import type { PointedName } from '../subjects/note.js';
import { noteName, printNoteName } from '../terms/note-name.js';
import { be, printBe } from '../terms/verb.js';
import type { Chosen } from './occurrence.js';

/** A note by its name and its place. */
type NoteSays = PointedName & { readonly place: Place };

const noteSays: Parser<NoteSays> = map(
  sequence(
    quiet(optional(word('the'))),
    noteName,
    choice<Omit<NoteSays, 'name'>>(
      map(sequence(at, placeName), ([, place]) => ({ place })),
      map(sequence(word('in', 'of'), lineName, at, placeName), ([, line, , place]) => ({ line, place })),
    ),
  ),
  ([, name, rest]) => ({ name, ...rest }),
);

/** Which note the first, last or only one is. */
export const chosenNoteFamily = family<Chosen, NoteSays>({
  name: 'first and last note',
  examples: ['the first chromatic note of the piece is the D# of bar 4'],
  phrases: [[be, noteSays]],
  print: ({ name, line, place }, form) =>
    `${printBe(form)} the ${printNoteName(name)}${line === undefined ? '' : ` in ${printLine(line)}`} of ${printPlace(place)}`,
  check: ({ which, of, occurrences }, { name, line, place }, context): Finding<Chosen> => {
    if (of.kind !== 'note' && of.kind !== 'tone' && of.kind !== 'chromatic')
      return { verdict: 'fails', code: 'C1912', reason: 'it is no note', evidence: [], pointless: true };
    const asked = pointed(name, line, place).resolve(context);
    if (asked.kind === 'none') return asked.finding;
    if (asked.kind === 'endings') return { ...severalEndings(place), pointless: true };
    const one = which === 'last' ? (occurrences.at(-1) ?? occurrences[0]) : occurrences[0];
    // Several may be struck at once.
    const together = occurrences.filter(({ onset }) => compare(onset, one.onset) === 0);
    const evidence = together.flatMap(each => each.evidence.slice(0, 1));
    const ids = new Set(asked.subject.notes.map(({ id }) => id));
    const isIt = evidence.some(({ note }) => note !== undefined && ids.has(note));
    const several = which === 'only' && occurrences.length > 1;
    return {
      verdict: isIt && !several ? 'holds' : 'fails',
      code: isIt && !several ? 'C1911' : 'C1912',
      reason: several
        ? 'there are several'
        : `it is ${evidence.map(({ pitch }) => pitch).join(' and ')} in ${sayMoment(one.onset, context)}`,
      evidence,
    };
  },
});
