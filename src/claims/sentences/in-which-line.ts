import type { Claim } from '../claim.js';
import { nonChordToneInLineFamily } from '../families/non-chord-tone.js';
import { linePedalFamily, pedalFamily } from '../families/pedal.js';
import { choice, map, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { at, placeName } from '../place/place-name.js';
import { statement } from '../statement.js';
import { lineName } from '../subjects/line-name.js';
import { lineSubject } from '../subjects/line.js';
import { span } from '../subjects/span.js';
import { article } from '../terms/chord-name.js';
import { nonChordTone } from '../terms/non-chord-tone.js';
import { pitchClassName } from '../terms/note-name.js';
import { be } from '../terms/verb.js';
import { denied } from './links.js';

const pedalPoint = word('pedal', 'pedal point', 'pedal note', 'pedal tone');

/** `the suspension of bar 3 is in the soprano`, `the pedal of bars 21-24 is in the bass`, `the F# of bars 21-24 is a pedal point`. */
export const inWhichLine: Parser<Claim> = rule('InWhichLine', () =>
  choice(
    map(
      sequence(word('the'), nonChordTone, at, placeName, be, word('in'), lineName),
      ([, says, , place, { negated }, , line]) =>
        statement(lineSubject(line, place), denied(negated, nonChordToneInLineFamily.make(says))),
    ),
    map(
      sequence(word('the'), pedalPoint, at, placeName, be, word('in'), lineName),
      ([, , , place, { negated }, , line]) =>
        statement(lineSubject(line, place), denied(negated, linePedalFamily.make({}))),
    ),
    map(
      sequence(
        quiet(optional(word('the'))),
        pitchClassName,
        at,
        placeName,
        be,
        quiet(optional(article)),
        pedalPoint,
      ),
      ([, tone, , place, { negated }]) => statement(span(place), denied(negated, pedalFamily.make({ tone }))),
    ),
  ),
);
