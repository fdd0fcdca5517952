import type { Claim } from '../claim.js';
import { conjunction } from '../conjunction.js';
import { thingOccurs } from '../families/occurrence.js';
import { choice, map, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { barList, scope } from '../place/place-name.js';
import { ordinal } from '../quantity/ordinal.js';
import { toldFrom } from '../families/version.js';
import { onlyDiffers } from '../versions/version-claims.js';
import { onlyBars } from '../quantity/only-bars.js';
import { statement } from '../statement.js';
import { spanSubject } from '../subjects/span.js';
import { thing } from '../subjects/thing.js';
import { be, have } from '../terms/verb.js';
import { barNamed } from './openings.js';
import { plainPredicate } from './predicates.js';

/** `bar 29 is the only Neapolitan`, `bars 7 and 31 are the only cadential six-fours`. */
export const onlyOnes: Parser<Claim> = rule('OnlyOnes', () =>
  map(sequence(barList, choice(be, have), word('the only'), thing, scope), ([labels, , , of, place]) =>
    conjunction([
      thingOccurs(of, { kind: 'exactly', number: labels.length }, place),
      ...labels.map(label => thingOccurs(of, { kind: 'at least', number: 1 }, barNamed(label))),
    ]),
  ),
);

/** `only bar 29 has C natural`. */
export const onlySentence: Parser<Claim> = rule('OnlySentence', () =>
  choice(
    // `only bars 1, 2 and 3 have Bb`.
    map(sequence(word('only'), barList, plainPredicate), ([, labels, of]) => {
      const version = toldFrom(of);
      return version === undefined ? onlyBars(labels, of) : onlyDiffers(labels.map(barNamed), version);
    }),
    map(sequence(word('only'), spanSubject, plainPredicate), ([, subject, of]) =>
      statement(subject, ordinal({ which: 'only', unit: 'bar', place: { kind: 'piece' } }, of)),
    ),
  ),
);
