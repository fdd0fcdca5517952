import { equals } from '../../score/index.js';
import type { Mark, Note } from '../../score/index.js';
import type { Finding } from '../claim.js';
import { family } from '../family.js';
import type { Making } from '../family.js';
import { map, optional, quiet, sequence, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { sayMoment } from '../place/say-moment.js';
import { liesIn } from '../segments.js';
import type { Line } from '../subjects/line.js';
import type { PointedNotes } from '../subjects/note.js';
import type { Span } from '../subjects/span.js';
import { article, withArticle } from '../terms/chord-name.js';
import { have, haveNo, printHas } from '../terms/verb.js';

const ornaments = [
  'trill',
  'mordent',
  'upper mordent',
  'turn',
  'inverted turn',
  'roll',
  'grace note',
] as const;
type Ornament = (typeof ornaments)[number];

/** An ornament as the score writes it, by a sign or by small notes. */
export interface OrnamentSays {
  readonly ornament: Ornament;
}

const anOrnament: Parser<OrnamentSays> = map(
  sequence(
    quiet(optional(article)),
    wordsFor<Ornament>([
      ['trill', 'trill', 'trills', 'shake', 'shakes'],
      ['mordent', 'mordent', 'mordents', 'lower mordent', 'lower mordents'],
      ['upper mordent', 'upper mordent', 'upper mordents', 'inverted mordent', 'inverted mordents'],
      ['turn', 'turn', 'turns'],
      ['inverted turn', 'inverted turn', 'inverted turns'],
      ['roll', 'roll', 'rolls'],
      ['grace note', 'grace note', 'grace notes'],
    ]),
  ),
  ([, ornament]): OrnamentSays => ({ ornament }),
);

/** One ornament of the score: what it is, and the note or the small note that has it. */
interface Written {
  readonly ornament: Ornament;
  readonly at: Pick<Mark, 'onset' | 'voice'>;
}

function ornamentsOf({ analysis: { score } }: ClaimContext): readonly Written[] {
  return [
    ...score.marks
      .filter(({ kind }) => kind === 'ornament')
      .flatMap(mark =>
        ornaments.filter(each => each === mark.text).map((ornament): Written => ({ ornament, at: mark })),
      ),
    ...score.notes
      .filter(({ grace }) => grace)
      .map((note): Written => ({ ornament: 'grace note', at: note })),
  ];
}

/** The ornaments among those of the subject: claim M4 of the trade as far as signs go; how they are played is opinion. */
const ornamentFamily = <S extends { readonly name: string }>(
  name: string,
  examples: readonly string[],
  isOf: (subject: S, written: Written) => boolean,
): Making<S, OrnamentSays> =>
  family<S, OrnamentSays>({
    name,
    examples,
    phrases: [
      [have, anOrnament],
      [haveNo, anOrnament],
    ],
    print: ({ ornament }, form) => printHas(form, /^[aeiou]/u.test(ornament) ? 'an' : 'a', ornament),
    check: (subject, { ornament }, context, make): Finding<S> => {
      const own = ornamentsOf(context).filter(written => isOf(subject, written));
      const found = own.find(each => each.ornament === ornament);
      const [other] = own;
      return {
        verdict: found === undefined ? 'fails' : 'holds',
        code: found === undefined ? 'C1622' : 'C1621',
        reason:
          found !== undefined
            ? `${withArticle(ornament)} stands in ${sayMoment(found.at.onset, context)}`
            : other === undefined
              ? `no ornament is written in ${subject.name}`
              : `the score writes ${withArticle(other.ornament)} in ${sayMoment(other.at.onset, context)}`,
        evidence: [],
        instead: () => own.map(each => make({ ornament: each.ornament })),
      };
    },
  });

const isAtNote =
  ({ at }: Written) =>
  (note: Note): boolean =>
    equals(note.onset, at.onset) && note.voice === at.voice;

export const spanOrnamentFamily = ornamentFamily<Span>(
  'ornament',
  ['bar 4 has a trill', 'bars 1-8 have a grace note'],
  ({ range }, { at }) => liesIn(at.onset, range),
);

export const lineOrnamentFamily = ornamentFamily<Line>(
  'ornament of a line',
  ['the soprano of bar 4 has a mordent'],
  ({ notes }, written) => notes.some(({ note }) => isAtNote(written)(note)),
);

export const noteOrnamentFamily = ornamentFamily<PointedNotes>(
  'ornament of a note',
  ['the C5 of bar 4 has a turn'],
  ({ notes }, written) => notes.some(isAtNote(written)),
);
