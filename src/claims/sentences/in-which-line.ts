import type { Claim } from '../claim.js';
import { nonChordToneInLineFamily } from '../families/non-chord-tone.js';
import { linePedalFamily, pedalFamily } from '../families/pedal.js';
import { roleInLineFamily } from '../families/role-in-line.js';
import { choice, map, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { at, before, placeName } from '../place/place-name.js';
import { statement } from '../statement.js';
import { chordSubject } from '../subjects/chord-subject.js';
import { lineName } from '../subjects/line-name.js';
import { lineWithin } from '../subjects/line-within.js';
import { member, memberNotes } from '../subjects/member.js';
import { lineSubject } from '../subjects/line.js';
import { span } from '../subjects/span.js';
import { article } from '../terms/chord-name.js';
import { nonChordTone } from '../terms/non-chord-tone.js';
import { pitchClassName } from '../terms/note-name.js';
import { be, have, verb } from '../terms/verb.js';
import { denied } from './links.js';
import { linePredicate, notePredicate } from './predicates.js';

const pedalPoint = word('pedal', 'pedal point', 'pedal note', 'pedal tone');

/** What a line has of a chord that is pointed at: `the tenor has the third of the last chord`, `the last chord has A in the tenor`. */
export const chordInLine: Parser<Claim> = rule('ChordInALine', () =>
  choice(
    map(sequence(chordSubject, linePredicate, word('in'), lineName), ([chord, says, , line]) =>
      statement(lineWithin(line, chord), says),
    ),
    map(sequence(lineName, word('of', 'in'), chordSubject, linePredicate), ([line, , chord, says]) =>
      statement(lineWithin(line, chord), says),
    ),
    map(
      sequence(
        lineName,
        choice(have, verb('takes', 'take'), verb('sings', 'sing'), verb('plays', 'play')),
        member,
        word('of', 'in'),
        chordSubject,
      ),
      ([line, { negated }, named, , chord]) =>
        statement(
          lineWithin(line, chord),
          denied(negated, roleInLineFamily.make({ kind: 'member', member: named })),
        ),
    ),
    // `in bar 6 the leading note is in the tenor`.
    map(sequence(before, member, notePredicate), ([place, named, says]) =>
      statement(memberNotes(named, place), says),
    ),
  ),
);

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
