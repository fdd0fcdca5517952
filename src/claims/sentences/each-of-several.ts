import type { Claim } from '../claim.js';
import { harmonicRhythmFamily } from '../families/harmonic-rhythm.js';
import { keyFamily } from '../families/key.js';
import { choice, list, map, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { barList } from '../place/place-name.js';
import { statements } from '../statement.js';
import { span, spanSubject } from '../subjects/span.js';
import { anyKey } from '../terms/key-reference.js';
import { count } from '../terms/number.js';
import { have, verb } from '../terms/verb.js';
import { and, denied } from './links.js';
import { barNamed, placeSubjects } from './openings.js';

/** `bars 1 and 3 have one chord each`, `bars 5-8 tonicize C minor and B flat major`. */
export const eachOfSeveral: Parser<Claim> = rule('EachOfSeveral', () =>
  choice(
    map(
      sequence(
        choice(
          map(barList, labels => labels.map(label => span(barNamed(label)))),
          map(spanSubject, subject => [subject]),
        ),
        have,
        count,
        word('chord', 'chords', 'harmony', 'harmonies'),
        word('each'),
      ),
      ([subjects, { negated }, chords]) =>
        statements(subjects, [denied(negated, harmonicRhythmFamily.make({ chords, each: 'bar' }))]),
    ),
    map(
      sequence(
        placeSubjects,
        choice(verb('tonicizes', 'tonicize'), verb('tonicises', 'tonicise')),
        anyKey,
        and,
        list(anyKey, and),
      ),
      ([subjects, { negated }, first, , others]) =>
        statements(
          subjects,
          [first, ...others].map(key => denied(negated, keyFamily.make({ what: 'tonicizes', key }))),
        ),
    ),
  ),
);
