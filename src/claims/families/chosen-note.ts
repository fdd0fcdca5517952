import { compare } from '../../score/index.js';
import type { Claim, Finding } from '../claim.js';
import type { Evidence } from '../model.js';
import { negation } from '../negation.js';
import { statement } from '../statement.js';
import type { Occurrence } from '../subjects/thing.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { at, placeName, printPlace } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { sayMoment } from '../place/say-moment.js';
import { severalEndings } from '../range-of.js';
import { lineName, printLine } from '../subjects/line-name.js';
import { pointed, pointedName } from '../subjects/note.js';
import type { PointedName } from '../subjects/note.js';
import { article } from '../terms/chord-name.js';
import { isNamed, noteName, printNoteName } from '../terms/note-name.js';
import { be, printBe } from '../terms/verb.js';
import { chosenThing } from './occurrence.js';
import type { Chosen } from './occurrence.js';

/** A note by its name, and by its line and its place where they are said. */
type NoteSays = PointedName & { readonly place?: Place };

const inOrOf = word('in', 'of');
const noteSays: Parser<NoteSays> = map(
  sequence(
    quiet(optional(article)),
    choice<NoteSays>(
      map(
        sequence(pointedName, optional(map(sequence(at, placeName), ([, place]) => place))),
        ([of, place]) => (place === undefined ? of : { ...of, place }),
      ),
      // `the C# of bar 6 in the tenor`.
      map(
        sequence(quiet(optional(word('the'))), noteName, at, placeName, inOrOf, lineName),
        ([, name, , place, , line]) => ({ name, place, line }),
      ),
    ),
  ),
  ([, says]) => says,
);

/** Which note the first, last or only one is. */
export const chosenNoteFamily = family<Chosen, NoteSays>({
  name: 'first and last note',
  examples: ['the first chromatic note of the piece is the D# of bar 4'],
  phrases: [[be, noteSays]],
  print: ({ name, line, place }, form) =>
    `${printBe(form)} ${place === undefined && line === undefined ? '' : 'the '}${printNoteName(name)}${line === undefined ? '' : ` in ${printLine(line)}`}${place === undefined ? '' : ` of ${printPlace(place)}`}`,
  check: ({ which, of, occurrences }, { name, line, place }, context): Finding<Chosen> => {
    if (of.kind !== 'note' && of.kind !== 'tone' && of.kind !== 'chromatic' && of.kind !== 'accidental')
      return { verdict: 'fails', code: 'C1912', reason: 'it is no note', evidence: [], pointless: true };
    const asked =
      place === undefined && line === undefined
        ? undefined
        : pointed(name, line, place ?? { kind: 'piece' }).resolve(context);
    if (asked?.kind === 'none') return asked.finding;
    if (asked?.kind === 'endings') return { ...severalEndings(place ?? { kind: 'piece' }), pointless: true };
    const one = which === 'last' ? (occurrences.at(-1) ?? occurrences[0]) : occurrences[0];
    // Several may be struck at once.
    const together = occurrences.filter(({ onset }) => compare(onset, one.onset) === 0);
    const { notes } = context.analysis.score;
    const shownIn = (found: readonly Occurrence[]): readonly Evidence[] =>
      found.flatMap(each => each.evidence.slice(0, 1));
    const evidence = shownIn(together);
    const isNamedSo = ({ note }: Evidence): boolean => {
      const struck = note === undefined ? undefined : notes[note];
      return (
        struck !== undefined &&
        isNamed(struck, name) &&
        (asked === undefined || asked.subject.notes.some(({ id }) => id === struck.id))
      );
    };
    const isIt = evidence.some(isNamedSo);
    // The only one may be struck several times: it is one by its name.
    const others = shownIn(occurrences).filter(({ note }) => {
      const struck = note === undefined ? undefined : notes[note];
      return struck !== undefined && !isNamed(struck, name);
    });
    const several = which === 'only' && others.length > 0;
    return {
      verdict: isIt && !several ? 'holds' : 'fails',
      code: isIt && !several ? 'C1911' : 'C1912',
      reason: several
        ? `there are others: ${[...new Set(others.map(({ pitch }) => pitch))].join(', ')}`
        : `it is ${evidence.map(({ pitch }) => pitch).join(' and ')} in ${sayMoment(one.onset, context)}`,
      evidence,
    };
  },
});

/** `B natural is the only chromatic note in bar 11`, `the C# in bar 6 is the first accidental`. */
export const noteIsTheFirst: Parser<Claim> = rule('NoteIsTheFirst', () =>
  map(sequence(noteSays, be, chosenThing), ([note, { negated }, of]) => {
    const says = chosenNoteFamily.make(note);
    return statement(of, negated ? negation(says) : says);
  }),
);
