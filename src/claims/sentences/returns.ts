import type { Claim } from '../claim.js';
import { conjunction } from '../conjunction.js';
import { chordRelationFamily } from '../families/chord-relation.js';
import { recurrenceFamily, shift } from '../families/recurrence.js';
import type { Shift } from '../families/recurrence.js';
import { choice, map, optional, quiet, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { at, barList, placeName } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { statement } from '../statement.js';
import { lineName } from '../subjects/line-name.js';
import type { LineName } from '../subjects/line-name.js';
import { span } from '../subjects/span.js';
import { be, have, verb } from '../terms/verb.js';
import { denied } from './links.js';
import { barNamed } from './openings.js';

export const comesBack = choice(
  verb('returns', 'return'),
  verb('comes back', 'come back'),
  verb('reappears', 'reappear'),
  verb('recurs', 'recur'),
  map(word('is heard again', 'are heard again', 'comes again', 'come again'), () => ({ negated: false })),
);

const imitates = choice(
  verb('imitates', 'imitate'),
  verb('echoes', 'echo'),
  verb('answers', 'answer'),
  verb('restates', 'restate'),
);
/** `the viola of bar 3`, `bars 3-4 of the left hand`. */
const lineAtPlace: Parser<readonly [LineName, Place]> = choice(
  map(sequence(lineName, at, placeName), ([line, , place]) => [line, place] as const),
  map(sequence(placeName, word('of', 'in'), lineName), ([place, , line]) => [line, place] as const),
);
const lineOrMusic: Parser<LineName | undefined> = choice<LineName | undefined>(
  map(word('melody', 'tune'), (): LineName => ({ kind: 'edge', edge: 'top' })),
  map(word('music', 'bars', 'measures', 'bar', 'measure'), () => undefined),
);

const sameAs = word('the same as in', 'the same as that of', 'the same as', 'like that of', 'like');

function firstBarOf(place: Place): Place {
  if (place.kind === 'bars') return { ...place, last: place.first };
  return place.kind === 'section' && place.section.kind !== 'beginning'
    ? { kind: 'section', section: { kind: 'beginning', of: place.section } }
    : place;
}

/** The first bars from where the melody comes in, as many as a place has. */
const openingLike = (place: Place): Place => ({
  kind: 'section',
  section: {
    kind: 'opening',
    bars:
      place.kind === 'bars'
        ? Math.max(1, Number.parseInt(place.last, 10) - Number.parseInt(place.first, 10) + 1)
        : 1,
  },
});

/** What is said of two sections that begin alike is said of their melody. */
const lineOfSection = (place: Place): LineName | undefined =>
  place.kind === 'section' ? { kind: 'edge', edge: 'top' } : undefined;

/** `bars 1-2 return in bars 5-6`, `bars 1-2 and bars 5-6 are the same`, `the melody of bars 5-6 repeats bars 1-2`. */
export const returnSentence: Parser<Claim> = rule('ReturnSentence', () => {
  const repeats = (model: Place, copy: Place, no: boolean, line?: LineName, rhythm = false): Claim =>
    statement(
      span(copy),
      denied(
        no,
        recurrenceFamily.make({
          place: model,
          shift: { kind: 'none' },
          ...(line === undefined ? {} : { line }),
          ...(rhythm ? { rhythm: true } : {}),
        }),
      ),
    );
  return choice(
    map(sequence(placeName, comesBack, at, placeName), ([model, { negated }, , copy]) =>
      repeats(model, copy, negated),
    ),
    // As much of the opening as the place that is named has bars.
    map(
      sequence(word('the'), word('opening'), optional(lineOrMusic), comesBack, at, placeName),
      ([, , line, { negated }, , copy]) => repeats(openingLike(copy), copy, negated, line),
    ),
    map(
      sequence(
        placeName,
        choice(verb('begins', 'begin'), verb('starts', 'start'), verb('opens', 'open')),
        quiet(optional(word('in'))),
        choice(word('like'), word('the same way as', 'the same as'), word('as')),
        placeName,
      ),
      ([copy, { negated }, , , model]) =>
        repeats(firstBarOf(model), firstBarOf(copy), negated, lineOfSection(copy)),
    ),
    map(
      sequence(
        placeName,
        word('and'),
        placeName,
        choice(verb('begins', 'begin'), verb('starts', 'start'), verb('opens', 'open')),
        word('alike', 'the same', 'the same way', 'in the same way'),
      ),
      ([model, , copy, { negated }]) =>
        repeats(firstBarOf(model), firstBarOf(copy), negated, { kind: 'edge', edge: 'top' }),
    ),
    // `the same harmonies stand in bars 3-4 and bars 15-16`.
    map(
      sequence(
        word('the same harmonies', 'the same chords', 'the same progression'),
        choice(
          verb('stand', 'stand'),
          verb('occur', 'occur'),
          verb('come', 'come'),
          verb('is heard', 'are heard'),
        ),
        word('in'),
        placeName,
        word('and'),
        quiet(optional(word('in'))),
        placeName,
      ),
      ([, { negated }, , model, , , copy]) =>
        statement(span(copy), denied(negated, chordRelationFamily.make({ relation: 'row', place: model }))),
    ),
    // `bar 13 returns to the opening melody`.
    map(
      sequence(
        placeName,
        choice(verb('returns to', 'return to'), verb('brings back', 'bring back')),
        word('the opening'),
        optional(lineOrMusic),
      ),
      ([copy, { negated }, , line]) => repeats(openingLike(copy), copy, negated, line),
    ),
    map(
      sequence(word('the rhythm of', 'the rhythm in'), placeName, be, sameAs, placeName),
      ([, copy, { negated }, , model]) => repeats(model, copy, negated, undefined, true),
    ),
    map(
      sequence(
        word('the rhythm of', 'the rhythm in'),
        placeName,
        word('and'),
        placeName,
        be,
        wordsFor<boolean>([
          [false, 'the same', 'identical', 'alike', 'equal'],
          [true, 'different'],
        ]),
      ),
      ([, model, , copy, { negated }, different]) =>
        repeats(model, copy, negated !== different, undefined, true),
    ),
    map(
      sequence(
        barList,
        be,
        quiet(optional(word('all', 'both'))),
        word('the same', 'identical', 'alike', 'equal'),
      ),
      ([labels, { negated }]) =>
        conjunction(
          labels.slice(1).map(label => repeats(barNamed(labels[0] ?? label), barNamed(label), negated)),
        ),
    ),
    map(
      sequence(
        choice<readonly (string | Place)[]>(
          barList,
          map(sequence(placeName, word('and'), placeName), ([a, , b]) => [a, b]),
        ),
        choice(be, have),
        word('the same chord', 'the same harmony', 'same chord', 'same harmony'),
      ),
      ([places, { negated }]) => {
        const [first, ...others] = places.map(each => (typeof each === 'string' ? barNamed(each) : each));
        return conjunction(
          others.map(other =>
            statement(
              span(other),
              denied(negated, chordRelationFamily.make({ relation: 'same', place: first ?? other })),
            ),
          ),
        );
      },
    ),
    // `bars 17-18 are repeated a step lower in bars 19-20`.
    map(
      sequence(
        quiet(optional(word('the model of', 'the model in', 'the pattern of', 'the music of'))),
        placeName,
        choice(
          map(
            sequence(be, word('repeated', 'restated', 'answered', 'imitated', 'heard again', 'copied')),
            ([is]) => is,
          ),
          comesBack,
        ),
        shift,
        at,
        placeName,
      ),
      ([, model, { negated }, moved, , copy]) =>
        statement(span(copy), denied(negated, recurrenceFamily.make({ place: model, shift: moved }))),
    ),
    map(
      sequence(placeName, word('and'), placeName, be, word('the same', 'identical', 'alike', 'equal')),
      ([model, , copy, { negated }]) => repeats(model, copy, negated),
    ),
    map(
      sequence(
        lineName,
        at,
        placeName,
        choice(
          verb('repeats', 'repeat'),
          map(sequence(be, word('the same as', 'identical to'), quiet(optional(word('in')))), ([is]) => is),
        ),
        placeName,
      ),
      ([line, , copy, { negated }, model]) => repeats(model, copy, negated, line),
    ),
    // `the right hand of bars 14-15 repeats bars 1-2 a fourth higher`, `the viola of bar 3 imitates the cello of bar 2`.
    map(
      sequence(lineAtPlace, choice(verb('repeats', 'repeat'), imitates), placeName, shift),
      ([[line, copy], { negated }, model, moved]) =>
        statement(span(copy), denied(negated, recurrenceFamily.make({ place: model, shift: moved, line }))),
    ),
    map(
      sequence(
        lineAtPlace,
        choice<{ readonly negated: boolean; readonly moved: Shift }>(
          map(verb('repeats', 'repeat'), ({ negated }) => ({ negated, moved: { kind: 'none' } as const })),
          map(imitates, ({ negated }) => ({ negated, moved: { kind: 'any' } as const })),
        ),
        lineAtPlace,
        optional(shift),
      ),
      ([[line, copy], { negated, moved }, [of, model], said]) =>
        statement(
          span(copy),
          denied(negated, recurrenceFamily.make({ place: model, shift: said ?? moved, line, of })),
        ),
    ),
  );
});
