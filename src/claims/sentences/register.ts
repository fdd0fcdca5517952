import type { Claim } from '../claim.js';
import { extremeFamily, lineRangeFamily, rangeSize } from '../families/register.js';
import { choice, map, mark, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { at, atPlace, placeName, scope } from '../place/place-name.js';
import { statement, statements } from '../statement.js';
import { extreme, extremeName, which } from '../subjects/extreme.js';
import { lineName } from '../subjects/line-name.js';
import { lineSubject } from '../subjects/line.js';
import { noteName } from '../terms/note-name.js';
import { be } from '../terms/verb.js';
import { denied } from './links.js';

/** `C6 is the highest note of the piece`, `the highest note is C6 in bar 29`, `the melody peaks in bar 29`, `the range of the soprano in bar 1 is a third`. */
export const registerSentence: Parser<Claim> = rule('RegisterSentence', () => {
  const peak = word(
    'reaches its highest note',
    'reaches its highest point',
    'reaches its high point',
    'reaches its peak',
    'peaks',
    'has its highest note',
  );
  return choice(
    map(
      sequence(
        noteName,
        be,
        word('the'),
        which,
        word('note', 'pitch'),
        optional(map(sequence(at, lineName), ([, line]) => line)),
        scope,
      ),
      ([note, { negated }, , edge, , line, place]) =>
        statement(extreme(edge, line, place), denied(negated, extremeFamily.make({ kind: 'pitch', note }))),
    ),
    // `the highest note of the melody is F5 in bar 14`, `the highest note of bars 9-12 is the D5 of bar 11`.
    map(
      sequence(
        extremeName,
        word('is'),
        quiet(optional(word('the'))),
        noteName,
        quiet(optional(mark(','))),
        choice(atPlace, quiet(map(sequence(word('of'), placeName), ([, place]) => place))),
      ),
      ([edge, , , note, , place]) =>
        statements(
          [edge],
          [extremeFamily.make({ kind: 'pitch', note }), extremeFamily.make({ kind: 'place', place })],
        ),
    ),
    map(
      sequence(
        lineName,
        peak,
        quiet(optional(mark(','))),
        optional(map(sequence(quiet(optional(word('on', 'at'))), noteName), ([, note]) => note)),
        quiet(optional(mark(','))),
        atPlace,
      ),
      ([line, , , note, , place]) =>
        statements(
          [extreme('highest', line, { kind: 'piece' })],
          [
            ...(note === undefined ? [] : [extremeFamily.make({ kind: 'pitch', note })]),
            extremeFamily.make({ kind: 'place', place }),
          ],
        ),
    ),
    map(
      sequence(word('the range of', 'the compass of'), lineName, scope, be, rangeSize),
      ([, line, place, { negated }, says]) =>
        statement(lineSubject(line, place), denied(negated, lineRangeFamily.make(says))),
    ),
  );
});
