import type { Claim } from '../claim.js';
import { conjunction } from '../conjunction.js';
import { recurrenceFamily } from '../families/recurrence.js';
import { choice, map, optional, quiet, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { barList, barRange, placeName } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { statement } from '../statement.js';
import { lineName, lineNoun } from '../subjects/line-name.js';
import type { LineName } from '../subjects/line-name.js';
import { span } from '../subjects/span.js';
import { be, have, verb } from '../terms/verb.js';
import { denied } from './links.js';

/** What of a line is compared. */
interface Compared {
  readonly same: boolean;
  readonly rhythm: boolean;
}

const noun = wordsFor<boolean>([
  [
    false,
    'notes',
    'pitches',
    'music',
    'melody',
    'tune',
    'line',
    'part',
    'figure',
    'material',
    'phrase',
    'thing',
  ],
  [true, 'rhythm', 'rhythms', 'note values'],
]);
const compared: Parser<Compared> = map(
  sequence(
    wordsFor<boolean>([
      [true, 'the same', 'exactly the same', 'identical', 'the identical'],
      [false, 'a different', 'different', 'another', 'not the same'],
    ]),
    noun,
  ),
  ([same, rhythm]) => ({ same, rhythm }),
);
const theSame: Parser<Compared> = wordsFor<Compared>([
  [{ same: true, rhythm: false }, 'the same', 'identical', 'exactly the same', 'exactly alike', 'alike'],
  [{ same: false, rhythm: false }, 'different', 'not the same'],
]);

const oneBar = (label: string): Place => ({ kind: 'bars', first: label, last: label });

/** The later of two places against the earlier, as a sentence about the later. */
const repeats = (model: Place, copy: Place, line: LineName, { same, rhythm }: Compared, no: boolean): Claim =>
  statement(
    span(copy),
    denied(
      same === no,
      recurrenceFamily.make({
        place: model,
        shift: { kind: 'none' },
        line,
        ...(rhythm ? { rhythm: true as const } : {}),
      }),
    ),
  );

/** Each bar of a list against the first of them. */
const bars: Parser<(line: LineName, of: Compared, no: boolean) => Claim> = choice(
  map(
    barList,
    ([first = '', ...others]) =>
      (line: LineName, of: Compared, no: boolean) =>
        conjunction(others.map(each => repeats(oneBar(first), oneBar(each), line, of, no))),
  ),
  map(
    sequence(barRange, word('and'), barRange),
    ([model, , copy]) =>
      (line: LineName, of: Compared, no: boolean) =>
        repeats(model, copy, line, of, no),
  ),
  map(
    sequence(
      barRange,
      word(
        'as',
        'from',
        'and',
        'than',
        'compared with',
        'as in',
        'from that in',
        'from that of',
        'than in',
        'and in',
      ),
      barRange,
    ),
    ([copy, , model]) =>
      (line: LineName, of: Compared, no: boolean) =>
        repeats(model, copy, line, of, no),
  ),
);

const lineOnly = map(sequence(quiet(optional(word('the'))), lineNoun), ([, line]) => line);

/** `the voice has the same notes in bars 17 and 19`, `the melody of bar 13 is the same as that of bar 1`, `bars 1 and 5 have the same melody`. */
export const sameInTwoPlaces: Parser<Claim> = rule('SameInTwoPlaces', () =>
  choice(
    map(
      sequence(
        lineName,
        choice(have, verb('sings', 'sing'), verb('plays', 'play'), verb('repeats', 'repeat')),
        compared,
        quiet(optional(word('in'))),
        bars,
      ),
      ([line, { negated }, of, , say]) => say(line, of, negated),
    ),
    map(
      sequence(lineName, be, theSame, quiet(optional(word('in'))), bars),
      ([line, { negated }, of, , say]) => say(line, of, negated),
    ),
    map(sequence(lineName, quiet(word('in', 'of')), bars, be, theSame), ([line, , say, { negated }, of]) =>
      say(line, of, negated),
    ),
    // `the rhythm of the voice is the same in bars 3 and 7`.
    map(
      sequence(
        word('the'),
        noun,
        word('of', 'in'),
        lineName,
        be,
        wordsFor<boolean>([
          [true, 'the same', 'identical'],
          [false, 'different', 'not the same'],
        ]),
        word('in'),
        bars,
      ),
      ([, rhythm, , line, { negated }, same, , say]) => say(line, { same, rhythm }, negated),
    ),
    map(sequence(bars, have, compared, word('in'), lineName), ([say, { negated }, of, , line]) =>
      say(line, of, negated),
    ),
    map(
      sequence(
        bars,
        have,
        wordsFor<boolean>([
          [true, 'the same', 'an identical', 'identical'],
          [false, 'a different', 'different'],
        ]),
        lineOnly,
      ),
      ([say, { negated }, same, line]) => say(line, { same, rhythm: false }, negated),
    ),
    // `the melody of bar 13 is the same as that of bar 1`.
    map(
      sequence(
        lineName,
        word('of', 'in'),
        placeName,
        be,
        wordsFor<boolean>([
          [true, 'the same as', 'identical to', 'identical with', 'exactly the same as', 'like'],
          [false, 'different from', 'not the same as', 'unlike'],
        ]),
        quiet(
          optional(
            choice(
              word('that of', 'that in', 'in'),
              map(sequence(lineName, word('of', 'in')), () => ''),
            ),
          ),
        ),
        placeName,
      ),
      ([line, , copy, { negated }, same, , model]) =>
        repeats(model, copy, line, { same, rhythm: false }, negated),
    ),
    map(
      sequence(
        lineName,
        verb('repeats', 'repeat'),
        quiet(optional(word('the notes of', 'the music of'))),
        placeName,
        word('in', 'at'),
        placeName,
      ),
      ([line, { negated }, , model, , copy]) =>
        repeats(model, copy, line, { same: true, rhythm: false }, negated),
    ),
  ),
);
