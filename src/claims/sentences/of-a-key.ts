import type { Claim } from '../claim.js';
import { keyFamily } from '../families/key.js';
import { pivotFamily } from '../families/pivot.js';
import { choice, map, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { at, oneBar, placeName, scope } from '../place/place-name.js';
import { statement, statements } from '../statement.js';
import { chordSubject } from '../subjects/chord-subject.js';
import { span } from '../subjects/span.js';
import { anyKey, keyReference } from '../terms/key-reference.js';
import { be, verb } from '../terms/verb.js';
import { denied } from './links.js';
import { placeSubjects, wholeMusic } from './openings.js';
import { comesBack } from './returns.js';

/** `the tonic key returns in bar 21`. */
export const keyReturns: Parser<Claim> = rule('KeyReturns', () =>
  map(
    sequence(word('the'), word('tonic key', 'home key', 'original key'), comesBack, at, placeName),
    ([, , { negated }, , place]) =>
      statement(
        span(place),
        denied(negated, keyFamily.make({ what: 'modulates to', key: { relation: 'tonic' } })),
      ),
  ),
);

/** `the pivot chord is the D minor chord in bar 5`. */
export const pivotIs: Parser<Claim> = rule('PivotIs', () =>
  map(
    sequence(word('the pivot chord', 'the pivot', 'the common chord'), be, chordSubject),
    ([, { negated }, chord]) => statement(chord, denied(negated, pivotFamily.make({}))),
  ),
);

/** `the waltz begins and ends in B minor`. */
export const beginsAndEndsIn: Parser<Claim> = rule('BeginsAndEndsIn', () =>
  map(
    sequence(
      placeSubjects,
      word('begins and ends in', 'begin and end in', 'starts and ends in', 'start and end in'),
      anyKey,
    ),
    ([subjects, , key]) =>
      statements(
        subjects,
        (['begins in', 'ends in'] as const).map(what => keyFamily.make({ what, key })),
      ),
  ),
);

/** `E minor is tonicized in bars 4-5`. */
export const keyTonicized: Parser<Claim> = rule('KeyTonicized', () =>
  map(sequence(keyReference, be, word('tonicized', 'tonicised'), scope), ([key, { negated }, , place]) =>
    statement(span(place), denied(negated, keyFamily.make({ what: 'tonicizes', key }))),
  ),
);

/** `the music has modulated to D major by bar 16`: from the beginning to there. */
export const modulatedBy: Parser<Claim> = rule('ModulatedBy', () =>
  map(
    sequence(
      wholeMusic,
      choice(verb('modulates to', 'modulate to'), verb('has modulated to', 'have modulated to')),
      anyKey,
      word('by'),
      oneBar,
    ),
    ([, { negated }, key, , last]) =>
      statement(
        span({ kind: 'bars', first: '1', last }),
        denied(negated, keyFamily.make({ what: 'modulates to', key })),
      ),
  ),
);
