import type { Claim, Predicate } from '../claim.js';
import { choice, map, optional, quiet, rule, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import { placeName, printPlace, scope } from '../place/place-name.js';
import type { Place } from '../place/place.js';
import type { Span } from '../subjects/span.js';
import { count } from '../terms/number.js';
import { evidenceAt, names, tally, units, unitsOf, whose } from './units.js';
import type { Unit } from './units.js';

/** How many of them must do what the sentence says. */
type Amount =
  | { readonly kind: 'every'; readonly of?: number }
  | { readonly kind: 'not every' | 'none' | 'most' }
  | { readonly kind: 'exactly' | 'at least' | 'at most'; readonly number: number };

/** Whether a number of places meets an amount. */
function meets(number: number, amount: Amount, all: number): boolean {
  switch (amount.kind) {
    case 'every':
      return number === all && (amount.of === undefined || amount.of === all);
    case 'not every':
      return number < all;
    case 'none':
      return number === 0;
    case 'most':
      return 2 * number > all;
    case 'exactly':
      return number === amount.number;
    case 'at least':
      return number >= amount.number;
    case 'at most':
      return number <= amount.number;
  }
}

const plural = (unit: Unit, number: number): string => (number === 1 ? unit : `${unit}s`);

function printAmount(amount: Amount, unit: Unit): { readonly words: string; readonly plural: boolean } {
  switch (amount.kind) {
    case 'every':
      return amount.of === undefined
        ? { words: `every ${unit}`, plural: false }
        : { words: `all ${String(amount.of)} ${plural(unit, amount.of)}`, plural: true };
    case 'not every':
      return { words: `not every ${unit}`, plural: false };
    case 'none':
      return { words: `no ${unit}`, plural: false };
    case 'most':
      return { words: `most ${unit}s`, plural: true };
    case 'exactly':
    case 'at least':
    case 'at most':
      return {
        words: `${amount.kind} ${String(amount.number)} ${plural(unit, amount.number)}`,
        plural: amount.number !== 1,
      };
  }
}

interface Quantity {
  readonly amount: Amount;
  readonly unit: Unit;
  readonly place: Place;
}

function printQuantified({ amount, unit, place }: Quantity, predicate: Predicate<Span>): string {
  const { words, plural: isPlural } = printAmount(amount, unit);
  return `${words} of ${printPlace(place)} ${predicate.print({ plural: isPlural, negated: false })}`;
}

/** Every, no, exactly, at least, at most: claim O1 of the trade, answered with the counterexample. */
export function quantified(quantity: Quantity, predicate: Predicate<Span>): Claim {
  const { amount, unit, place } = quantity;
  return {
    content: { quantity, says: predicate.family, what: predicate.content },
    print: () => printQuantified(quantity, predicate),
    check: context => {
      const counted_ = unitsOf(unit, place, context);
      if ('problem' in counted_) return counted_.problem;
      const found = tally(counted_.places, predicate, context);
      const yes = whose(found, 'holds');
      const maybe = whose(found, 'arguable', 'undecided');
      const all = found.places.length;
      const least = meets(yes.length, amount, all);
      const most = meets(yes.length + maybe.length, amount, all);
      const some = maybe.some((_, extra) => meets(yes.length + extra + 1, amount, all));
      const counted = `${String(yes.length)} of ${String(all)} ${plural(unit, all)}${yes.length > 0 && yes.length < all ? `: ${names(found, yes)}` : ''}`;
      if (least && most)
        return {
          verdict: 'holds',
          code: 'C1901',
          reason: `true of ${counted}`,
          evidence: evidenceAt(found, amount.kind === 'none' ? [] : yes),
        };
      const against = amount.kind === 'every' || amount.kind === 'most' ? whose(found, 'fails') : yes;
      const nearest = printQuantified(
        { ...quantity, amount: { kind: 'exactly', number: yes.length } },
        predicate,
      );
      if (least || most || some)
        return {
          verdict: maybe.every(at => found.findings[at]?.verdict === 'undecided') ? 'undecided' : 'arguable',
          code: 'C1903',
          reason: `surely true of ${counted}; it depends on ${names(found, maybe)}: ${found.findings[maybe[0] ?? 0]?.reason ?? ''}`,
          evidence: evidenceAt(found, maybe),
        };
      const [counterexample] = against;
      const why =
        counterexample === undefined || (amount.kind !== 'every' && amount.kind !== 'none')
          ? ''
          : `; ${amount.kind === 'every' ? 'not of ' : ''}${names(found, [counterexample])}: ${found.findings[counterexample]?.reason ?? ''}`;
      return {
        verdict: 'fails',
        code: 'C1902',
        reason: `true of ${counted}${why}`,
        evidence: evidenceAt(found, against),
        ...(maybe.length === 0 ? { nearest } : {}),
      };
    },
  };
}

const amounts = choice<{ readonly amount: Amount; readonly unit: Unit }>(
  map(sequence(word('every', 'each', 'all'), quiet(optional(word('the'))), units), ([, , unit]) => ({
    amount: { kind: 'every' },
    unit,
  })),
  map(sequence(word('all'), quiet(optional(word('the'))), count, units), ([, , number, unit]) => ({
    amount: { kind: 'every', of: number },
    unit,
  })),
  map(sequence(word('both'), quiet(optional(word('the'))), units), ([, , unit]) => ({
    amount: { kind: 'every', of: 2 },
    unit,
  })),
  map(sequence(word('most', 'most of the'), units), ([, unit]) => ({
    amount: { kind: 'most' as const },
    unit,
  })),
  map(sequence(word('no', 'none of the'), units), ([, unit]) => ({
    amount: { kind: 'none' as const },
    unit,
  })),
  map(
    sequence(
      wordsFor<'exactly' | 'at least' | 'at most'>([
        ['exactly', 'exactly'],
        ['at least', 'at least'],
        ['at most', 'at most'],
      ]),
      count,
      units,
    ),
    ([kind, number, unit]) => ({ amount: { kind, number }, unit }),
  ),
);

/** `every bar of bars 1-8 has F#`, `no chord of the piece is V7/V`, `exactly 3 bars of the piece have G#`, `the piece never has C#`. */
export const quantifiedSentence = (predicate: Parser<Predicate<Span>>): Parser<Claim> =>
  rule('QuantifiedSentence', () =>
    choice(
      map(sequence(amounts, scope, predicate), ([{ amount, unit }, place, says]) =>
        quantified({ amount, unit, place }, says),
      ),
      map(sequence(word('none of', 'no bar of'), placeName, predicate), ([, place, says]) =>
        quantified({ amount: { kind: 'none' }, unit: 'bar', place }, says),
      ),
      map(sequence(word('not every', 'not all'), units, scope, predicate), ([, unit, place, says]) =>
        quantified({ amount: { kind: 'not every' }, unit, place }, says),
      ),
      map(sequence(placeName, word('never'), predicate), ([place, , says]) =>
        quantified({ amount: { kind: 'none' }, unit: 'bar', place }, says),
      ),
      map(sequence(placeName, word('always'), predicate), ([place, , says]) =>
        quantified({ amount: { kind: 'every' }, unit: 'bar', place }, says),
      ),
    ),
  );

/** Sentences that show the forms of this file. */
export const quantifiedExamples = [
  'every bar of bars 1-6 has 1 chord',
  'no bar of bars 1-8 is V7/V',
  'exactly 2 chords of the piece are N6',
];
