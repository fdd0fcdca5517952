import { compare } from '../../score/index.js';
import type { Finding, Predicate } from '../claim.js';
import { choice, map, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { negation } from '../negation.js';
import { printPlace, scope } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import { statement } from '../statement.js';
import { span } from '../subjects/span.js';
import type { Span } from '../subjects/span.js';
import { be, printBe } from '../terms/verb.js';
import { evidenceAt, tally, units, unitsOf, whose } from './units.js';
import type { Unit } from './units.js';

type Which = 'first' | 'last' | 'only';

const whiches = wordsFor<Which>([
  ['first', 'first'],
  ['last', 'last'],
  ['only', 'only'],
]);

interface Ordinal {
  readonly which: Which;
  readonly unit: Unit;
  readonly place: Place;
}

const printOrdinal = ({ which, unit, place }: Ordinal, of: Predicate<Span>): string =>
  `the ${which} ${unit} of ${printPlace(place)} that ${of.print({ plural: false, negated: false })}`;

/** `is the first bar of the piece that has G#`: first, last, only, with what comes before, after or beside it. */
export function ordinal(says: Ordinal, of: Predicate<Span>): Predicate<Span> {
  const self: Predicate<Span> = {
    family: 'first, last, only',
    content: { ...says, says: of.family, what: of.content },
    print: form => `${printBe(form)} ${printOrdinal(says, of)}`,
    check: (subject, context): Finding<Span> => {
      const own = of.check(subject, context);
      if (own.verdict !== 'holds') return { ...own, reason: `${subject.name} is none: ${own.reason}` };
      const counted = unitsOf(says.unit, says.place, context);
      if ('problem' in counted) return { ...counted.problem, pointless: true };
      const found = tally(counted.places, of, context);
      const rivals = whose(found, 'holds').filter(at => {
        const other = found.places[at]?.resolve(context);
        if (other?.kind !== 'found') return false;
        const { range } = other.subject;
        if (says.which === 'first') return compare(range.end, subject.range.start) <= 0;
        if (says.which === 'last') return compare(subject.range.end, range.start) <= 0;
        return compare(range.end, subject.range.start) <= 0 || compare(subject.range.end, range.start) <= 0;
      });
      const [rival] = says.which === 'last' ? rivals.slice(-1) : rivals;
      const place = rival === undefined ? undefined : found.places[rival];
      if (rival === undefined || place === undefined)
        return {
          verdict: 'holds',
          code: 'C1901',
          reason: `${own.reason}; no other ${says.unit} ${says.which === 'only' ? '' : says.which === 'first' ? 'before it ' : 'after it '}does`,
          evidence: own.evidence,
        };
      return {
        verdict: 'fails',
        code: 'C1902',
        reason: `${place.print()} ${says.which === 'first' ? 'comes before it' : says.which === 'last' ? 'comes after it' : 'does too'}: ${found.findings[rival]?.reason ?? ''}`,
        evidence: [...evidenceAt(found, [rival]), ...own.evidence],
        rather: () =>
          says.which === 'only' ? [statement(span(subject.place), of)] : [statement(place, self)],
      };
    },
  };
  return self;
}

/** `is the first bar of the piece that has G#`. */
export const ordinalPredicate = (
  predicate: Parser<Predicate<Span>>,
  having: Parser<Predicate<Span>>,
): Parser<Predicate<Span>> =>
  rule('OrdinalPredicate', () =>
    map(
      sequence(
        be,
        word('the'),
        whiches,
        units,
        scope,
        choice(
          map(sequence(word('that', 'which', 'where it'), predicate), ([, of]) => of),
          map(sequence(word('with'), having), ([, of]) => of),
        ),
      ),
      ([{ negated }, , which, unit, place, of]) => {
        const says = ordinal({ which, unit, place }, of);
        return negated ? negation(says) : says;
      },
    ),
  );

/** A sentence that shows the form of this file. */
export const ordinalExample = 'bar 2 is the first bar of the piece that has A#';
