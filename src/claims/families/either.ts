import type { Finding, Predicate } from '../claim.js';
import type { Family } from '../family.js';
import { choice, list, map, mark, optional, quiet, rule, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, VerdictWord } from '../model.js';
import { negation } from '../negation.js';
import type { Span } from '../subjects/span.js';
import { article, chordSymbol, inversions } from '../terms/chord-name.js';
import { numeral } from '../terms/numeral.js';
import { be, printBe } from '../terms/verb.js';
import { chordFamily } from './chord.js';
import { numeralFamily } from './numeral.js';

/** From the best answer to the worst. */
const bestFirst: readonly VerdictWord[] = ['holds', 'arguable', 'undecided', 'fails'];

const named = (of: Predicate<Span>): string =>
  of.print({ plural: false, negated: false }).replace(/^is /u, '');

/** `is i or V43`: as true as the best of them. */
const either = (all: readonly Predicate<Span>[]): Predicate<Span> => ({
  family: 'one of several chords',
  content: all.map(each => ({ says: each.family, what: each.content })),
  print: form => {
    const names = all.map(named);
    return `${printBe(form)} ${names.slice(0, -1).join(', ')} or ${names.at(-1) ?? ''}`;
  },
  check: (span: Span, context: ClaimContext): Finding<Span> => {
    const findings = all.map(each => each.check(span, context));
    const best = bestFirst
      .map(verdict => findings.find(each => each.verdict === verdict))
      .find(each => each !== undefined);
    if (best === undefined) throw new Error('there are at least two chords');
    const instead = () => findings.flatMap(each => each.instead?.() ?? []);
    if (best.verdict !== 'fails') return { ...best, instead };
    const reasons = findings.map(
      (each, at) => `not ${named(all[at] ?? all[0] ?? either([]))}: ${each.reason}`,
    );
    return { ...best, reason: reasons.join('; '), instead };
  },
});

const one: Parser<Predicate<Span>> = choice(
  map(sequence(quiet(optional(article)), numeral), ([, of]) => numeralFamily.make({ numeral: of })),
  map(sequence(quiet(optional(article)), chordSymbol), ([, { root, quality, inversion }]) =>
    chordFamily.make({ form: 'symbol', root, quality, inversion }),
  ),
);

const position: Parser<Predicate<Span>> = map(
  sequence(quiet(optional(word('in'))), inversions),
  ([, inversion]) => chordFamily.make({ form: 'words', inversion }),
);

const ofSome = (option: Parser<Predicate<Span>>): Parser<Predicate<Span>> =>
  map(
    sequence(
      be,
      quiet(optional(word('either'))),
      list(option, mark(',')),
      quiet(optional(mark(','))),
      word('or'),
      option,
    ),
    ([{ negated }, , before, , , last]) => {
      const says = either([...before, last]);
      return negated ? negation(says) : says;
    },
  );

/** Chords of which one is meant: claim C1 of the trade under `every` and `no`. */
export const eitherFamily: Family<Span> = {
  name: 'one of several chords',
  examples: ['every bar of bars 1-3 is i, V43 or i6'],
  predicate: rule('OneOfSeveralChordsPhrase', () => choice(...[one, position].map(ofSome))),
  having: [],
  after: () => [],
  aspects: [],
};
