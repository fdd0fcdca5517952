import { isBefore } from '../../score/index.js';
import type { Fraction } from '../../score/index.js';
import type { Predicate, Resolution, Subject } from '../claim.js';
import { choice, map, optional, quiet, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { Segment } from '../../harmony/index.js';
import type { VerdictWord } from '../model.js';
import { at, placeName, printPlace, scope } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { unitsOf } from '../quantity/units.js';
import { liesIn, sayNumerals, segmentsIn } from '../segments.js';
import { aChord, nameOfChord } from '../families/chord-within.js';
import { appliedByName, appliedFamily } from '../families/applied.js';
import { chordFamily } from '../families/chord.js';
import { namedChordAfterThe, namedChordFamily, neapolitan } from '../families/named-chord.js';
import { numeralFamily } from '../families/numeral.js';
import { sixFour, sixFourFamily } from '../families/six-four.js';
import { ofQualityAlone } from '../terms/chord-name.js';
import { pitchClassName } from '../terms/note-name.js';
import { numeral } from '../terms/numeral.js';
import { sayMoment } from '../place/say-moment.js';
import { harmoniesOf } from './harmonies.js';
import type { Span } from './span.js';
import { subjectAt } from './subject-at.js';

type Edge = 'first' | 'last';

const none = (reason: string): Resolution<Span> => ({
  kind: 'none',
  finding: { verdict: 'fails', code: 'C0104', reason, evidence: [] },
});

/** `the last chord of bars 1-8`. */
const edgeChord = (edge: Edge, place: Place): Subject<Span> =>
  subjectAt({
    content: { edgeChord: edge, place },
    print: () => `the ${edge} chord of ${printPlace(place)}`,
    place,
    fixed: true,
    again: other => edgeChord(edge, other),
    find: (whole, context) => {
      const counted = unitsOf('chord', place, context);
      const places = 'places' in counted ? counted.places : [];
      const found = (edge === 'first' ? places[0] : places.at(-1))?.resolve(context);
      // A chord that opens the piece is heard from its first full bar: a pickup rarely holds all of it.
      const opening = context.analysis.score.bars.find(bar => bar.number > 0)?.start;
      const from = (start: Fraction, end: Fraction): Fraction =>
        opening !== undefined && isBefore(start, opening) && isBefore(opening, end) ? opening : start;
      return found?.kind === 'found'
        ? {
            kind: 'found',
            subject: {
              ...found.subject,
              range: {
                start: from(found.subject.range.start, found.subject.range.end),
                end: found.subject.range.end,
              },
              name: `the ${edge} chord of ${whole.name}`,
            },
          }
        : none(`no chord can be read in ${whole.name}`);
    },
  });

/** `the last cadence of the piece`, at its chord of arrival. */
const edgeCadence = (edge: Edge, place: Place): Subject<Span> =>
  subjectAt({
    content: { edgeCadence: edge, place },
    print: () => `the ${edge} cadence of ${printPlace(place)}`,
    place,
    fixed: true,
    again: other => edgeCadence(edge, other),
    find: (whole, context) => {
      const inside = context.analysis.cadences.filter(each => liesIn(each.onset, whole.range));
      const found = edge === 'first' ? inside[0] : inside.at(-1);
      if (found === undefined) return none(`there is no cadence in ${whole.name}`);
      const moment = { start: found.onset, end: found.onset };
      return {
        kind: 'found',
        subject: {
          range: moment,
          moment: found.onset,
          name: `the ${edge} cadence of ${whole.name}`,
          place,
        },
      };
    },
  });

/**
 * `the German sixth in bar 30`, `the dominant of bar 15`: the first chord of the place that is one.
 * @param orInto the chord before the place too, where none in it is one: `the French sixth resolves to V in bar 4`
 */
export const chordIn = (of: Predicate<Span>, place: Place, orInto = false): Subject<Span> => {
  const name = nameOfChord(of);
  return subjectAt({
    content: { chord: of.family, what: of.content, place },
    print: () => `the ${name} of ${printPlace(place)}`,
    place,
    fixed: true,
    again: other => chordIn(of, other, orInto),
    find: (whole, context) => {
      const segments = segmentsIn(
        context.analysis,
        whole.moment === undefined ? whole.range : { start: whole.moment, end: whole.moment },
      );
      // What points at a chord may count it in the key of the passage: `the dominant of bar 15`.
      const verdictsOf = ({ start, end, key }: Segment): readonly VerdictWord[] =>
        [context.home, key].map(
          home => of.check({ range: { start, end }, name: whole.name, place }, { ...context, home }).verdict,
        );
      const { segments: all } = context.analysis;
      const before = orInto && segments[0] !== undefined ? all[all.indexOf(segments[0]) - 1] : undefined;
      const found =
        segments.find(segment => verdictsOf(segment).includes('holds')) ??
        (before !== undefined && verdictsOf(before).includes('holds') ? before : undefined) ??
        segments.find(segment => verdictsOf(segment).includes('arguable'));
      return found === undefined
        ? none(`there is no ${name} in ${whole.name}: the chords are ${sayNumerals(segments, context)}`)
        : {
            kind: 'found',
            subject: {
              range: { start: found.start, end: found.end },
              name: `the ${name} of ${whole.name}`,
              place,
            },
          };
    },
  });
};

/** `the French sixth`: the only chord of the piece that is one. */
const theChord = (of: Predicate<Span>): Subject<Span> => {
  const name = nameOfChord(of);
  return subjectAt({
    content: { theChord: of.family, what: of.content },
    print: () => `the only ${name}`,
    place: { kind: 'piece' },
    fixed: true,
    again: () => theChord(of),
    find: (whole, context) => {
      const all = harmoniesOf(context.analysis.segments).flatMap(({ segments }) => {
        const own = segments.filter(({ start, end, key }) =>
          [context.home, key].some(
            home =>
              of.check({ range: { start, end }, name: whole.name, place: whole.place }, { ...context, home })
                .verdict === 'holds',
          ),
        );
        const [first, last] = [own[0], own.at(-1)];
        return first === undefined || last === undefined ? [] : [{ start: first.start, end: last.end }];
      });
      const [range, other] = all;
      if (range === undefined) return none(`there is no ${name} in the piece`);
      const where = (start: Fraction): string => sayMoment(start, context);
      return other === undefined
        ? {
            kind: 'found',
            subject: { range, name: `the ${name} of ${where(range.start)}`, place: whole.place },
          }
        : {
            kind: 'none',
            finding: {
              verdict: 'undecided',
              code: 'C0010',
              reason: `there are ${String(all.length)}, the first in ${where(range.start)} and the next in ${where(other.start)}: name the bar of the one that is meant`,
              evidence: [],
            },
          };
    },
  });
};

const edges = wordsFor<Edge>([
  ['first', 'first', 'opening'],
  ['last', 'last', 'final', 'closing'],
]);

/** `dominant`, `V42`, `German sixth`: a chord that a sentence points at. */
const pointable: Parser<Predicate<Span>> = rule('PointedChord', () =>
  choice(
    aChord,
    map(word('augmented sixth'), () => chordFamily.make({ form: 'words', class: 'augmented sixth chord' })),
    // `the B flat chord`.
    map(sequence(pitchClassName, word('chord', 'triad')), ([root]) =>
      chordFamily.make({ form: 'words', root, quality: 'major' }),
    ),
    // As in thing.ts: `the dominant seventh of bar 4` is a chord of that quality.
    map(ofQualityAlone, quality => chordFamily.make({ form: 'words', quality })),
    map(namedChordAfterThe, says => namedChordFamily.make(says)),
  ),
);
/** A chord that the place follows later: `V42 resolves to I6 in bar 9`. */
export const pointedChord: Parser<Predicate<Span>> = map(
  sequence(quiet(optional(word('the'))), pointable),
  ([, of]) => of,
);

/** A chord that a sentence points at without its place, as the only one of its kind: of most pieces there is one French sixth and many a dominant. */
export const onlyChord: Parser<Subject<Span>> = map(
  sequence(
    word('the'),
    quiet(optional(word('only'))),
    choice<Predicate<Span>>(
      map(numeral, of => numeralFamily.make({ numeral: of })),
      map(ofQualityAlone, quality => chordFamily.make({ form: 'words', quality })),
      map(word('augmented sixth', 'augmented sixth chord'), () =>
        chordFamily.make({ form: 'words', class: 'augmented sixth chord' }),
      ),
      map(neapolitan, says => namedChordFamily.make(says)),
      map(appliedByName, says => appliedFamily.make(says)),
      map(sixFour, says => sixFourFamily.make(says)),
    ),
  ),
  ([, , of]) => theChord(of),
);

/** A chord or a cadence that a sentence points at. */
export const chordSubject: Parser<Subject<Span>> = choice(
  map(sequence(quiet(optional(word('the'))), edges, word('chord', 'harmony'), scope), ([, edge, , place]) =>
    edgeChord(edge, place),
  ),
  map(sequence(word('the'), edges, word('cadence'), scope), ([, edge, , place]) => edgeCadence(edge, place)),
  map(sequence(word('the'), pointable, at, placeName), ([, of, , place]) => chordIn(of, place)),
  // `V7 in bar 15`.
  map(sequence(numeral, at, placeName), ([of, , place]) =>
    chordIn(numeralFamily.make({ numeral: of }), place),
  ),
);
