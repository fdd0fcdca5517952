import { conjunction } from '../conjunction.js';
import { statement } from '../statement.js';
import { negation } from '../negation.js';
import type { Verb } from '../terms/verb.js';
import type { Claim, Finding, Subject } from '../claim.js';
import { family } from '../family.js';
import { choice, map, optional, quiet, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext } from '../model.js';
import { momentOf } from '../place/beats.js';
import { sayMoment } from '../place/say-moment.js';
import { at, atPlace, barList, before, placeName, printPlace, scope } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { rangeOf } from '../range-of.js';
import { liesIn } from '../segments.js';
import { contentOfThing, occurrencesOf, printThing, thing } from '../subjects/thing.js';
import type { Occurrence, Thing } from '../subjects/thing.js';
import { count, sayTimes } from '../terms/number.js';
import { be, have, printBe, printVerb, verb } from '../terms/verb.js';

/** How often a thing occurs, and where. */
export interface OccurrenceSays {
  readonly times: { readonly kind: 'exactly' | 'at least' | 'at most'; readonly number: number };
  readonly place: Place;
  /** Nowhere else. */
  readonly only?: true;
}

const times: Parser<number> = choice(
  wordsFor<number>([
    [1, 'once'],
    [2, 'twice'],
  ]),
  map(sequence(count, word('times', 'time')), ([number]) => number),
);
/** `more than five times`: six at least. */
const moreThan: Parser<OccurrenceSays['times']> = map(
  sequence(word('more than'), count, word('times', 'time')),
  ([, number]) => ({
    kind: 'at least',
    number: number + 1,
  }),
);
const kinds = wordsFor<OccurrenceSays['times']['kind']>([
  ['exactly', 'exactly'],
  ['at least', 'at least'],
  ['at most', 'at most'],
]);

const where = (occurrences: readonly Occurrence[], context: ClaimContext): string => {
  const shown = occurrences.slice(0, 8).map(({ onset }) => sayMoment(onset, context));
  const more = occurrences.length - shown.length;
  return shown.join(', ') + (more > 0 ? ` and ${String(more)} more` : '');
};

/** `the note G#`, `V7/V`, `a half cadence` as what a sentence is about. */
const subjectOf = (of: Thing): Subject<Thing> => ({
  content: { thing: contentOfThing(of) },
  plural: false,
  print: () => printThing(of, true),
  resolve: () => ({ kind: 'found', subject: of }),
  neighbours: () => [],
});
export const thingSubject: Parser<Subject<Thing>> = map(sequence(optional(word('the')), thing), ([, of]) =>
  subjectOf(of),
);

const anywhere = (place: Place): OccurrenceSays => ({ times: { kind: 'at least', number: 1 }, place });
const onlyIn = map(sequence(word('only'), at, placeName), ([, , place]): OccurrenceSays => ({
  ...anywhere(place),
  only: true,
}));
const isHeard: Verb = choice<{ readonly negated: boolean }>(
  map(word('is heard', 'are heard'), () => ({ negated: false })),
  map(word('is not heard', 'are not heard', 'is never heard'), () => ({ negated: true })),
);

/** How often something occurs: claim O1 of the trade. */
export const occurrenceFamily = family<Thing, OccurrenceSays>({
  name: 'count',
  examples: [
    'the note A# occurs 6 times in bars 1-8',
    'V7/iv occurs once in the piece',
    'a half cadence occurs in bars 1-8',
    'the chord C never occurs in bars 1-8',
  ],
  phrases: [
    ...['occurs', 'appears', 'sounds', 'comes', 'returns', 'is heard'].flatMap(each => [
      [
        each === 'is heard' ? isHeard : verb(each, each.slice(0, -1)),
        map(
          sequence(
            optional(
              choice(
                kinds,
                map(word('only'), () => 'exactly' as const),
              ),
            ),
            times,
            scope,
          ),
          ([kind, number, place]): OccurrenceSays => ({ times: { kind: kind ?? 'exactly', number }, place }),
        ),
      ] as const,
      [each === 'is heard' ? isHeard : verb(each, each.slice(0, -1)), map(scope, anywhere)] as const,
      [each === 'is heard' ? isHeard : verb(each, each.slice(0, -1)), onlyIn] as const,
      [
        each === 'is heard' ? isHeard : verb(each, each.slice(0, -1)),
        map(sequence(moreThan, scope), ([often, place]): OccurrenceSays => ({ times: often, place })),
      ] as const,
    ]),
    [be, onlyIn],
    [
      map(
        word('never occurs', 'never occur', 'never appears', 'never appear', 'never sounds', 'never sound'),
        () => ({ negated: true }),
      ),
      map(scope, anywhere),
    ],
  ],
  print: ({ times: { kind, number }, place, only }, form) => {
    if (only === true) return `${printVerb('occurs', 'occur', form)} only in ${printPlace(place)}`;
    const isAny = kind === 'at least' && number === 1;
    if (isAny && form.negated) return `never ${form.plural ? 'occur' : 'occurs'} in ${printPlace(place)}`;
    const often = isAny ? '' : ` ${kind === 'exactly' ? '' : `${kind} `}${sayTimes(number)}`;
    return `${printVerb('occurs', 'occur', form)}${often} in ${printPlace(place)}`;
  },
  check: (of, says, context, make): Finding<Thing> => {
    const found = rangeOf(says.place, context);
    if ('problem' in found) return { ...found.problem, pointless: true };
    const occurrences = occurrencesOf(of, found.range, context);
    const { kind, number } = says.times;
    const n = occurrences.length;
    if (says.only === true) {
      const whole = rangeOf({ kind: 'piece' }, context);
      const outside =
        'problem' in whole
          ? []
          : occurrencesOf(of, whole.range, context).filter(each => !liesIn(each.onset, found.range));
      const alone = n > 0 && outside.length === 0;
      const all = [...occurrences, ...outside];
      return {
        verdict: alone ? 'holds' : 'fails',
        code: alone ? 'C1911' : 'C1912',
        reason:
          all.length === 0
            ? 'it never occurs in the piece'
            : `it occurs ${sayTimes(all.length)}: ${where(all, context)}`,
        evidence: all.slice(0, 8).flatMap(each => each.evidence.slice(0, 1)),
        instead: () => [make({ times: { kind: 'at least', number: 1 }, place: says.place })],
      };
    }
    const holds = kind === 'exactly' ? n === number : kind === 'at least' ? n >= number : n <= number;
    return {
      verdict: holds ? 'holds' : 'fails',
      code: holds ? 'C1911' : 'C1912',
      reason:
        n === 0
          ? `it never occurs in ${printPlace(says.place)}`
          : `it occurs ${sayTimes(n)}: ${where(occurrences, context)}`,
      evidence: occurrences.slice(0, 8).flatMap(each => each.evidence.slice(0, 1)),
      instead: () => (n === 0 ? [] : [make({ ...says, times: { kind: 'exactly', number: n } })]),
    };
  },
});

type Which = 'first' | 'last' | 'only';

/** One of the occurrences of a thing in a place. */
export interface Chosen {
  readonly which: Which;
  readonly of: Thing;
  readonly occurrences: readonly [Occurrence, ...Occurrence[]];
}

const chosen = (which: Which, of: Thing, place: Place): Subject<Chosen> => {
  const print = (): string => `the ${which} ${printThing(of, false)} of ${printPlace(place)}`;
  return {
    content: { which, thing: contentOfThing(of), place },
    plural: false,
    print,
    resolve: context => {
      const found = rangeOf(place, context);
      if ('problem' in found) return { kind: 'none', finding: found.problem };
      // Of the whole piece, what is foreign to its key is meant, not to the keys that it passes through.
      const counted: Thing =
        of.kind === 'chromatic' && of.key === undefined && place.kind === 'piece'
          ? { ...of, key: context.home }
          : of;
      const [first, ...rest] = occurrencesOf(counted, found.range, context);
      if (first === undefined)
        return {
          kind: 'none',
          finding: {
            verdict: 'fails',
            code: 'C1912',
            reason: `there is none in ${printPlace(place)}`,
            evidence: [],
          },
        };
      return { kind: 'found', subject: { which, of, occurrences: [first, ...rest] } };
    },
    neighbours: () => [],
  };
};

/** `the first V7/V of the piece`, `the last half cadence of bars 1-16`. */
export const chosenThing: Parser<Subject<Chosen>> = map(
  sequence(
    word('the'),
    wordsFor<Which>([
      ['first', 'first'],
      ['last', 'last'],
      ['only', 'only'],
    ]),
    thing,
    scope,
  ),
  ([, which, of, place]) => chosen(which, of, place),
);

/** `the note A# occurs twice in bar 2`, as a claim. */
export const thingOccurs = (of: Thing, times_: OccurrenceSays['times'], place: Place): Claim =>
  statement(subjectOf(of), occurrenceFamily.make({ times: times_, place }));

/** Where the first, last or only one is. */
export const chosenFamily = family<Chosen, { readonly place: Place }>({
  name: 'first and last',
  examples: ['the first note A# of the piece is in bar 2', 'the last half cadence of the piece is in bar 8'],
  phrases: [
    [be, map(sequence(word('in', 'on', 'at'), placeName), ([, place]) => ({ place }))],
    ...['appears', 'occurs', 'comes', 'arrives', 'sounds'].map(
      each =>
        [
          verb(each, each.slice(0, -1)),
          map(sequence(word('in', 'on', 'at'), placeName), ([, place]) => ({ place })),
        ] as const,
    ),
  ],
  print: ({ place }, form) => `${printBe(form)} in ${printPlace(place)}`,
  check: ({ which, occurrences }, { place }, context, make): Finding<Chosen> => {
    const found = rangeOf(place, context);
    if ('problem' in found) return { ...found.problem, pointless: true };
    const [first] = occurrences;
    const one = which === 'last' ? (occurrences.at(-1) ?? first) : first;
    const inside = liesIn(one.onset, found.range);
    const several = which === 'only' && occurrences.length > 1;
    const moment = momentOf(context.analysis.score, one.onset, context.beatUnit);
    return {
      verdict: inside && !several ? 'holds' : 'fails',
      code: inside && !several ? 'C1911' : 'C1912',
      reason: `${several ? 'there are several' : 'it is'}: ${where(several ? occurrences : [one], context)}`,
      evidence: one.evidence,
      instead: () =>
        moment === undefined ? [] : [make({ place: { kind: 'bars', first: moment.bar, last: moment.bar } })],
    };
  },
});

/** `A# first appears in bar 2`, `the Neapolitan last occurs in bar 29`. */
export const firstAppearance: Parser<Claim> = rule('FirstAppearance', () =>
  map(
    sequence(
      quiet(optional(word('the'))),
      thing,
      wordsFor<Which>([
        ['first', 'first'],
        ['last', 'last'],
      ]),
      word('appears', 'occurs', 'sounds', 'comes'),
      word('in', 'on', 'at'),
      placeName,
    ),
    ([, of, which, , , place]) =>
      statement(chosen(which, of, { kind: 'piece' }), chosenFamily.make({ place })),
  ),
);

interface SoMany {
  readonly kind: OccurrenceSays['times']['kind'];
  readonly number: number;
  readonly of: Thing;
}
const soMany: Parser<SoMany> = map(
  sequence(
    optional(
      choice(
        kinds,
        map(word('only', 'just'), () => 'exactly' as const),
      ),
    ),
    count,
    thing,
  ),
  ([kind, number, of]) => ({ kind: kind ?? 'exactly', number, of }),
);
/** `there are two half cadences in bars 1-24`, `there is only one Neapolitan`, `bar 3 has two secondary dominants`. */
export const thereAreSo: Parser<Claim> = rule('ThereAreSoMany', () =>
  map(
    choice<{ readonly place: Place; readonly so: SoMany }>(
      map(sequence(word('there are', 'there is'), soMany, scope), ([, so, place]) => ({ place, so })),
      map(sequence(before, word('there are', 'there is'), soMany), ([place, , so]) => ({ place, so })),
      map(sequence(placeName, have, soMany), ([place, , so]) => ({ place, so })),
      map(
        sequence(soMany, word('occur', 'occurs', 'appear', 'appears', 'are heard', 'come'), scope),
        ([so, , place]) => ({
          place,
          so,
        }),
      ),
    ),
    ({ place, so: { kind, number, of } }) =>
      statement(subjectOf(of), occurrenceFamily.make({ times: { kind, number }, place })),
  ),
);

/** `no cadence occurs before bar 8`. */
export const noneOccurs: Parser<Claim> = rule('NoneOccurs', () =>
  map(
    sequence(
      word('no'),
      thing,
      choice(verb('occurs', 'occur'), verb('appears', 'appear'), verb('comes', 'come'), isHeard),
      atPlace,
    ),
    ([, of, , place]) => statement(subjectOf(of), negation(occurrenceFamily.make(anywhere(place)))),
  ),
);

/** `the tonic appears in bars 1, 9 and 25`: in each of them. */
export const occursInEach: Parser<Claim> = rule('OccursInEach', () =>
  map(
    sequence(
      thingSubject,
      choice(verb('appears', 'appear'), verb('occurs', 'occur'), verb('comes', 'come'), isHeard),
      word('in'),
      barList,
    ),
    ([of, { negated }, , labels]) =>
      conjunction(
        labels.map(label => {
          const says = occurrenceFamily.make(anywhere({ kind: 'bars', first: label, last: label }));
          return statement(of, negated ? negation(says) : says);
        }),
      ),
  ),
);

const placeOrChord: Parser<Place> = choice(
  placeName,
  map(sequence(word('the chord', 'the harmony', 'the cadence'), at, placeName), ([, , place]) => place),
);
/** `bar 16 is the first perfect authentic cadence`, `bar 29 has the only Neapolitan of the piece`. */
export const isTheFirst: Parser<Claim> = rule('IsTheFirst', () =>
  map(sequence(placeOrChord, choice(be, have), chosenThing), ([place, { negated }, of]) => {
    const says = chosenFamily.make({ place });
    return statement(of, negated ? negation(says) : says);
  }),
);

/** `the half cadence is in bar 8`, `the pivot chord comes in bar 6`: it is there. */
export const isThere: Parser<Claim> = rule('IsThere', () =>
  map(
    sequence(
      word('the'),
      thing,
      choice(be, verb('arrives', 'arrive'), verb('falls', 'fall')),
      word('in', 'on', 'at'),
      placeName,
    ),
    ([, of, { negated }, , place]) => {
      const says = occurrenceFamily.make(anywhere(place));
      return statement(subjectOf(of), negated ? negation(says) : says);
    },
  ),
);
