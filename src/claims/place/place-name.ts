import { compare } from '../../score/index.js';
import type { Fraction } from '../../score/index.js';
import {
  choice,
  list,
  map,
  mark,
  optional,
  quiet,
  refine,
  rule,
  sequence,
  shapes,
  token,
  word,
  wordsFor,
} from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { beatNumber, count, numberInWords, printBeat } from '../terms/number.js';
import type { Place, PlaceName, Portion, Side } from './place.js';
import { printSection, section } from './section.js';
import { wholePiece } from './whole-piece.js';

const { character, inOrder, maybe, oneOrMore } = shapes;

/** `5`, `8a`, `thirty-two`. */
const barLabel: Parser<string> = choice(
  token({
    name: 'BarLabel',
    label: 'a bar number',
    shape: inOrder(oneOrMore(character('0-9')), maybe(character('a-z'))),
    value: matched => (matched.length <= 6 ? matched.replace(/^0+(?=\d)/u, '') : undefined),
  }),
  map(quiet(numberInWords), String),
);

const bar = word('bar', 'measure', 'm.', 'm', 'b.');
const bars = rule('Bars', () =>
  word('bars', 'bar', 'measures', 'measure', 'mm.', 'mm', 'm.', 'm', 'bb.', 'b.'),
);
const beat = word('beat');
const beats = quiet(word('beats', 'beat'));
const and = quiet(choice(word('and'), mark('&')));
const of = word('of', 'in');
/** What joins a thing to its place: `the D of bar 3`, `the bass falls in bars 3-4`. */
export const at = word(
  'of',
  'in',
  'at',
  'on',
  'from',
  'during',
  'throughout',
  'through',
  'over',
  'for the whole of',
  'for all of',
);
const to = rule('To', () => quiet(choice(mark('-', '–', '—', '‐', '‑'), word('to'), word('through'))));
const comma = quiet(optional(mark(',')));

export const oneBar = rule('OneBar', () =>
  map(sequence(quiet(optional(word('the'))), bar, barLabel), ([, , label]) => label),
);

type Bars = Extract<Place, { readonly kind: 'bars' }>;
/** `bar 5`, `bars 5-8`, `bars 5 to 8`, and `bars 5 and 6` where they are neighbours. */
export const barRange: Parser<Bars> = choice(
  map(oneBar, (label): Bars => ({ kind: 'bars', first: label, last: label })),
  map(
    sequence(quiet(optional(word('the'))), bars, barLabel, to, quiet(optional(bar)), barLabel),
    ([, , first, , , last]): Bars => ({ kind: 'bars', first, last }),
  ),
  refine(
    sequence(bars, barLabel, and, barLabel),
    ([, first, , last]): Bars | undefined =>
      Number(last) === Number(first) + 1 ? { kind: 'bars', first, last } : undefined,
    'neighbouring bars such as `bars 5 and 6`',
  ),
);

const nextBar = quiet(
  choice(
    map(sequence(mark(','), optional(word('and'))), () => undefined),
    map(and, () => undefined),
  ),
);
/** `bars 1 and 3`, `bars 2, 4 and 6`: their labels. */
export const barList: Parser<readonly string[]> = rule('SeveralBars', () =>
  map(sequence(bars, barLabel, nextBar, list(barLabel, nextBar)), ([, first, , others]) => [
    first,
    ...others,
  ]),
);

/** As `barList` reads it; two neighbours joined by `and` would be one passage. */
export function printBarList(labels: readonly string[]): string {
  const [first, second] = labels;
  if (labels.length === 1) return `bar ${first ?? ''}`;
  const isPassage = labels.length === 2 && Number(second) === Number(first) + 1;
  return isPassage
    ? `bars ${labels.join(', ')}`
    : `bars ${labels.slice(0, -1).join(', ')} and ${labels.at(-1) ?? ''}`;
}

const ordinalBeats = wordsFor<number>([
  [1, 'first', '1st'],
  [2, 'second', '2nd'],
  [3, 'third', '3rd'],
  [4, 'fourth', '4th'],
  [5, 'fifth', '5th'],
  [6, 'sixth', '6th'],
]);
/** `the third beat`. */
const nthBeat = map(sequence(quiet(optional(word('the'))), ordinalBeats, beat), ([, n]) => ({
  first: { n, d: 1 },
  last: { n, d: 1 },
}));
const oneBeat = map(sequence(beat, beatNumber), ([, number]) => ({ first: number, last: number }));
const beatRange = rule('Beats', () =>
  choice(
    oneBeat,
    map(sequence(beats, beatNumber, to, quiet(optional(beat)), beatNumber), ([, first, , , last]) => ({
      first,
      last,
    })),
    refine(
      sequence(beats, beatNumber, and, beatNumber),
      ([, first, , last]) =>
        last.d === first.d && last.n === first.n + first.d ? { first, last } : undefined,
      'neighbouring beats such as `beats 1 and 2`',
    ),
  ),
);
/** `the first three beats`. */
const firstBeats = map(
  sequence(quiet(optional(word('the'))), word('first', 'opening'), count, word('beats')),
  ([, , number]) => ({ first: { n: 1, d: 1 }, last: { n: number, d: 1 } }),
);
const downbeat = map(sequence(optional(word('the')), word('downbeat')), () => ({
  first: { n: 1, d: 1 },
  last: { n: 1, d: 1 },
}));

/** A beat of a bar that is named before: `bar 3 has V65/V on beat 4`. */
export const beatsNamed: Parser<{ readonly first: Fraction; readonly last: Fraction }> = rule(
  'BeatsNamed',
  () => choice(beatRange, downbeat, quiet(nthBeat), quiet(firstBeats)),
);

/** `bar 5 beat 3`, `bar 5, beats 1-2`, `beat 3 of bar 5`, `the downbeat of bar 5`. */
const beatsOfBar: Parser<Place> = choice(
  map(sequence(oneBar, comma, beatRange), ([label, , range]): Place => ({
    kind: 'beats',
    bar: label,
    ...range,
  })),
  map(sequence(beatsNamed, of, oneBar), ([range, , label]): Place => ({
    kind: 'beats',
    bar: label,
    ...range,
  })),
);

const moment: Parser<PlaceName> = rule('Moment', () =>
  choice(
    map(sequence(oneBar, comma, beat, beatNumber), ([label, , , number]): PlaceName => ({
      bar: label,
      beat: number,
    })),
    map(sequence(beat, beatNumber, of, oneBar), ([, number, , label]): PlaceName => ({
      bar: label,
      beat: number,
    })),
    map(oneBar, (label): PlaceName => ({ bar: label })),
  ),
);

/** `bar 5 beat 3 until bar 6 beat 2`: up to that moment and not into it. */
const stretch: Parser<Place> = map(
  sequence(optional(word('from')), moment, comma, word('until'), moment),
  ([, from, , , until]): Place => ({ kind: 'stretch', from, until }),
);

/** `before bar 29`, `after bar 16`, `from bar 21 on`. */
const sideOfBar: Parser<Place> = rule('SideOfABar', () =>
  choice(
    map(
      sequence(
        wordsFor<Side>([
          ['before', 'before', 'until'],
          ['after', 'after'],
          ['up to', 'up to', 'from the beginning to', 'from the start to'],
        ]),
        oneBar,
      ),
      ([side, label]): Place => ({ kind: 'side', side, bar: label }),
    ),
    map(
      sequence(word('from'), oneBar, word('on', 'onward', 'onwards', 'to the end')),
      ([, label]): Place => ({ kind: 'side', side: 'from', bar: label }),
    ),
  ),
);
const portions = wordsFor<Portion>([
  ['last beat', 'last beat', 'final beat', 'end'],
  ['last 2 beats', 'last 2 beats', 'last two beats', 'final two beats'],
  ['last 3 beats', 'last 3 beats', 'last three beats', 'final three beats'],
  ['first half', 'first half'],
  ['second half', 'second half', 'last half'],
]);

const the = word('the');
const named: Parser<Place> = rule('NamedPlace', () =>
  choice(
    map(sequence(the, word('pickup', 'pickup bar', 'pick-up', 'upbeat', 'anacrusis')), (): Place => ({
      kind: 'pickup',
    })),
    // First, because a dance is the piece only where it has no trio.
    map(section, (named): Place => ({ kind: 'section', section: named })),
    map(sequence(choice(the, word('this')), optional(word('whole', 'entire')), wholePiece), (): Place => ({
      kind: 'piece',
    })),
    map(sequence(the, word('bars', 'measures'), sideOfBar), ([, , place]) => place),
    map(sequence(the, portions, of, oneBar), ([, portion, , label]): Place => ({
      kind: 'portion',
      portion,
      bar: label,
    })),
    map(
      sequence(quiet(optional(the)), word('pickup', 'upbeat'), word('to'), oneBar),
      ([, , , last]): Place => ({
        kind: 'bars',
        first: '0',
        last,
      }),
    ),
    map(word('the end'), (): Place => ({ kind: 'last bars', count: 1 })),
    map(word('the beginning', 'the start'), (): Place => ({ kind: 'first bars', count: 1 })),
    map(sequence(the, word('first', 'opening'), bar), (): Place => ({ kind: 'first bars', count: 1 })),
    map(sequence(the, word('last', 'final', 'closing'), bar), (): Place => ({ kind: 'last bars', count: 1 })),
    map(sequence(the, word('first', 'opening'), count, bars), ([, , number]): Place => ({
      kind: 'first bars',
      count: number,
    })),
    map(sequence(the, word('last', 'final', 'closing'), count, bars), ([, , number]): Place => ({
      kind: 'last bars',
      count: number,
    })),
  ),
);

/** Any place: `bar 5`, `bars 5-8`, `bar 5 beat 3`, `bar 5 beat 3 until bar 6 beat 2`, `the pickup`, `the last bar`, `the piece`. */
export const placeName: Parser<Place> = rule(
  'Place',
  () => choice(stretch, beatsOfBar, barRange, named),
  'a place such as `bar 5`, `bars 5-8`, `bar 5 beat 3` or `the piece`',
);

/** Where something is: `of bar 3`, `in bars 3-4`, `before bar 29`. */
export const atPlace: Parser<Place> = rule('AtPlace', () =>
  choice(
    map(sequence(at, placeName), ([, place]) => place),
    sideOfBar,
    // `from 1 to 8`.
    quiet(
      map(sequence(word('from'), barLabel, to, barLabel), ([, first, , last]): Place => ({
        kind: 'bars',
        first,
        last,
      })),
    ),
  ),
);

/** A place that stands before what is said of it: `in bars 3-4 the bass falls`, `on beat 2 of bar 3, there is a rest`. */
export const before: Parser<Place> = rule('Before', () => map(sequence(atPlace, comma), ([place]) => place));

/** `in bars 1-8`, `of the piece`; the piece where it is left out. */
export const scope: Parser<Place> = rule('Scope', () =>
  map(optional(atPlace), place => place ?? { kind: 'piece' }),
);

const printMoment = ({ bar: label, beat: number }: PlaceName): string =>
  `bar ${label}${number === undefined ? '' : ` beat ${printBeat(number)}`}`;

/** The place in the form that the reference recommends. */
export function printPlace(place: Place): string {
  switch (place.kind) {
    case 'bars':
      return place.first === place.last ? `bar ${place.first}` : `bars ${place.first}-${place.last}`;
    case 'beats':
      return compare(place.first, place.last) === 0
        ? `bar ${place.bar} beat ${printBeat(place.first)}`
        : `bar ${place.bar} beats ${printBeat(place.first)}-${printBeat(place.last)}`;
    case 'stretch':
      return `${printMoment(place.from)} until ${printMoment(place.until)}`;
    case 'first bars':
      return place.count === 1 ? 'the first bar' : `the first ${String(place.count)} bars`;
    case 'last bars':
      return place.count === 1 ? 'the last bar' : `the last ${String(place.count)} bars`;
    case 'side':
      return `the bars ${place.side} bar ${place.bar}${place.side === 'from' ? ' on' : ''}`;
    case 'portion':
      return `the ${place.portion} of bar ${place.bar}`;
    case 'pickup':
      return 'the pickup';
    case 'section':
      return printSection(place.section);
    case 'piece':
      return 'the piece';
  }
}
