import type { Claim } from '../claim.js';
import { conjunction } from '../conjunction.js';
import { lineRhythmFamily } from '../families/durations.js';
import { linePitchFamily, onlyNotes } from '../families/line-pitch.js';
import { aLament } from '../families/lament.js';
import { aLeap } from '../families/line-moves.js';
import { melodicFamily } from '../families/melodic.js';
import { motionFamily, motionName } from '../families/motion.js';
import { choice, list, map, optional, quiet, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { at, placeName, scope } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { statement, statements } from '../statement.js';
import { lineName, lineNoun } from '../subjects/line-name.js';
import { lineSubject, lineSubjectName } from '../subjects/line.js';
import { pairSubject, twoLines } from '../subjects/pair.js';
import { span } from '../subjects/span.js';
import { article } from '../terms/chord-name.js';
import { noteName } from '../terms/note-name.js';
import type { NoteName } from '../terms/note-name.js';
import { noteValue } from '../terms/note-value.js';
import { be, have, haveNo, verb } from '../terms/verb.js';
import { and, denied } from './links.js';
import { placePredicate, linePredicate, lineHaving } from './predicates.js';

/** `the left hand of bar 4 plays D#, F#, A and B`: each of them. */
export const lineHasNotes: Parser<Claim> = rule('LineHasNotes', () => {
  const note = map(sequence(quiet(optional(article)), noteName), ([, named]) => named);
  return map(
    sequence(lineSubjectName, choice(have, verb('plays', 'play')), note, and, list(note, and)),
    ([line, { negated }, first, , others]) =>
      statements(
        [line],
        [first, ...others].map(each => denied(negated, linePitchFamily.make({ how: 'has', note: each }))),
      ),
  );
});

const bassIs = (place: Place, note: NoteName, no: boolean): Claim =>
  statement(
    lineSubject({ kind: 'part', part: 'bass' }, place),
    denied(no, linePitchFamily.make({ how: 'is', note })),
  );

/** `bar 2 has E in the bass`, `E is in the bass in bar 2`, `E is the bass of bar 2`. */
export const bassSentence: Parser<Claim> = rule('BassSentence', () =>
  choice(
    map(sequence(placeName, have, noteName, word('in the bass')), ([place, { negated }, note]) =>
      bassIs(place, note, negated),
    ),
    map(
      sequence(noteName, be, word('in the bass', 'the bass', 'the bass note'), at, placeName),
      ([note, { negated }, , , place]) => bassIs(place, note, negated),
    ),
  ),
);

/** `all the soprano notes of bar 3 are crotchets`, `every note of the tenor in bars 9-11 is C or D`. */
export const allNotesOfLine: Parser<Claim> = rule('AllNotesOfALine', () =>
  choice(
    map(
      sequence(
        word('every note of', 'every note in', 'each note of', 'all notes of', 'all the notes of'),
        lineName,
        scope,
        be,
        onlyNotes,
      ),
      ([, line, place, { negated }, says]) =>
        statement(lineSubject(line, place), denied(negated, linePitchFamily.make(says))),
    ),
    map(
      sequence(
        word('all', 'all the'),
        choice(
          map(sequence(lineNoun, word('notes')), ([line]) => line),
          map(sequence(word('notes of', 'notes in'), lineName), ([, line]) => line),
        ),
        scope,
        be,
        noteValue,
      ),
      ([, line, place, { negated }, value]) =>
        statement(
          lineSubject(line, place),
          denied(negated, lineRhythmFamily.make({ kind: 'value', only: true, value })),
        ),
    ),
  ),
);

/** `bar 15 has a 4-3 suspension in the soprano`: what the line of the place has. */
export const inLineSentence: Parser<Claim> = rule('InLineSentence', () =>
  choice(
    // `bar 12 is I with a 4-3 suspension in the tenor`.
    map(
      sequence(placeName, list(placePredicate, and), word('with'), lineHaving, word('in'), lineName),
      ([place, predicates, , has, , line]) =>
        conjunction([statements([span(place)], predicates), statement(lineSubject(line, place), has)]),
    ),
    map(sequence(placeName, linePredicate, word('in'), lineName), ([place, says, , line]) =>
      statement(lineSubject(line, place), says),
    ),
    map(
      sequence(placeName, have, motionName, word('between', 'in'), twoLines),
      ([place, { negated }, kind, , [first, second]]) =>
        statement(pairSubject(first, second, place), denied(negated, motionFamily.make({ kind }))),
    ),
    map(sequence(placeName, have, aLament), ([place, { negated }, says]) =>
      statement(
        lineSubject({ kind: 'part', part: 'bass' }, place),
        denied(negated, melodicFamily.make(says)),
      ),
    ),
    map(
      sequence(
        placeName,
        have,
        quiet(optional(article)),
        rising,
        quiet(optional(word('chromatic'))),
        word('bass', 'bass line'),
      ),
      ([place, { negated }, , up]) =>
        statement(
          lineSubject({ kind: 'part', part: 'bass' }, place),
          denied(negated, melodicFamily.make({ kind: 'direction', up, manner: 'any' })),
        ),
    ),
  ),
);

const rising = wordsFor<boolean>([
  [true, 'rising', 'ascending'],
  [false, 'falling', 'descending'],
]);

/** `the leap in bar 14 is filled in`: of the melody, where no line is named. */
export const leapSentence: Parser<Claim> = rule('LeapSentence', () =>
  map(
    sequence(
      word('the leap'),
      quiet(optional(sequence(word('of', 'in'), lineName))),
      at,
      placeName,
      be,
      word('filled in', 'filled'),
    ),
    ([, , , place, { negated }]) =>
      statement(
        lineSubject({ kind: 'edge', edge: 'top' }, place),
        denied(negated, melodicFamily.make({ kind: 'gap fill' })),
      ),
  ),
);

/** `bar 29 contains a leap`: of the melody, where no line is named. */
export const melodyHas: Parser<Claim> = rule('MelodyHas', () =>
  map(sequence(placeName, choice(have, haveNo), aLeap), ([place, { negated }, says]) =>
    statement(lineSubject({ kind: 'edge', edge: 'top' }, place), denied(negated, melodicFamily.make(says))),
  ),
);
