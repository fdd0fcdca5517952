import { compare, isBefore } from '../score/index.js';
import type { Fraction } from '../score/index.js';
import type { Claim, Finding, Judged, Predicate } from './claim.js';
import { choice, map, optional, quiet, rule, sequence, word, wordsFor } from './grammar/index.js';
import type { Parser } from './grammar/index.js';
import type { ClaimContext, Evidence, Range, Verdict } from './model.js';
import { endOf, momentOf } from './place/beats.js';
import { placeName, printPlace } from './place/place-name.js';
import type { Place, PlaceName } from './place/place.js';
import { beatsOf, isResolved, resolvePlace } from './place/resolve.js';
import { negation } from './negation.js';
import { liesIn, segmentsIn } from './segments.js';
import { statement } from './statement.js';
import { harmoniesOf } from './subjects/harmonies.js';
import { span } from './subjects/span.js';
import type { PlaceSubject, Span } from './subjects/span.js';
import { count } from './terms/number.js';
import { be, printBe } from './terms/verb.js';

/** What is counted: the bars, the beats or the chords of a place. */
type Unit = 'bar' | 'beat' | 'chord';

/** How many of them must do what the sentence says. */
type Amount =
  | { readonly kind: 'every' | 'none' }
  | { readonly kind: 'exactly' | 'at least' | 'at most'; readonly number: number };

const units = wordsFor<Unit>([
  ['bar', 'bar', 'bars', 'measure', 'measures'],
  ['beat', 'beat', 'beats'],
  ['chord', 'chord', 'chords', 'harmony', 'harmonies'],
]);
const wholePiece: Place = { kind: 'piece' };
const scope: Parser<Place> = map(
  optional(map(sequence(word('of', 'in'), placeName), ([, place]) => place)),
  place => place ?? wholePiece,
);

/** A moment as a place name, the end of a bar as one beat past its last. */
function nameOf(onset: Fraction, isEnd: boolean, context: ClaimContext): PlaceName | undefined {
  const { score } = context.analysis;
  const ending = isEnd ? score.bars.find(bar => compare(endOf(bar), onset) === 0) : undefined;
  if (ending !== undefined) {
    const next = score.bars[ending.index + 1];
    if (next !== undefined) return { bar: next.label, beat: { n: 1, d: 1 } };
    const moment = momentOf(score, onset, context.beatUnit);
    return moment === undefined ? undefined : { bar: ending.label, beat: moment.beat };
  }
  return momentOf(score, onset, context.beatUnit);
}

/** The bars, beats or chords of a stretch, each as a place of its own. */
function placesOf(unit: Unit, range: Range, context: ClaimContext): readonly PlaceSubject[] {
  const { score } = context.analysis;
  const bars = score.bars.filter(bar => isBefore(bar.start, range.end) && isBefore(range.start, endOf(bar)));
  switch (unit) {
    case 'bar':
      return [...new Set(bars.map(bar => bar.label))].map(label =>
        span({ kind: 'bars', first: label, last: label }),
      );
    case 'beat':
      return bars
        .flatMap(bar => beatsOf(bar, context.beatUnit))
        .filter(beat => {
          const found = resolvePlace(beat, score, context.beatUnit);
          return isResolved(found) && liesIn(found.range.start, range);
        })
        .map(span);
    case 'chord':
      return harmoniesOf(segmentsIn(context.analysis, range)).flatMap(({ start, end }) => {
        const from = nameOf(start, false, context);
        const until = nameOf(end, true, context);
        return from === undefined || until === undefined ? [] : [span({ kind: 'stretch', from, until })];
      });
  }
}

type Units = { readonly places: readonly PlaceSubject[] } | { readonly problem: Judged };

/** The same for a place by its name; a problem where it is none of the piece. */
function unitsOf(unit: Unit, place: Place, context: ClaimContext): Units {
  const resolved = resolvePlace(place, context.analysis.score, context.beatUnit);
  if (isResolved(resolved)) return { places: placesOf(unit, resolved.range, context) };
  if ('problem' in resolved)
    return { problem: { verdict: 'fails', code: resolved.code, reason: resolved.problem, evidence: [] } };
  const reason = `${printPlace(place)} has several endings; name one`;
  return { problem: { verdict: 'undecided', code: 'C0007', reason, evidence: [] } };
}

interface Tally {
  readonly places: readonly PlaceSubject[];
  readonly findings: readonly Judged[];
}

function tally(places: readonly PlaceSubject[], predicate: Predicate<Span>, context: ClaimContext): Tally {
  const findings = places.map((place): Judged => {
    const resolution = place.resolve(context);
    if (resolution.kind === 'found') return predicate.check(resolution.subject, context);
    return resolution.kind === 'none'
      ? resolution.finding
      : { verdict: 'undecided', code: 'C0007', reason: 'several endings', evidence: [] };
  });
  return { places, findings };
}

const whose = ({ places, findings }: Tally, ...words: readonly Verdict['verdict'][]): readonly number[] =>
  places.flatMap((_, at) => (words.includes(findings[at]?.verdict ?? 'undecided') ? [at] : []));

const names = (of: Tally, indices: readonly number[]): string => {
  const shown = indices.slice(0, 8).flatMap(at => of.places[at]?.print() ?? []);
  return `${shown.join(', ')}${indices.length > shown.length ? ` and ${String(indices.length - shown.length)} more` : ''}`;
};

const evidenceAt = (of: Tally, indices: readonly number[]): readonly Evidence[] =>
  indices.slice(0, 4).flatMap(at => (of.findings[at]?.evidence ?? []).slice(0, 4));

/** Whether a number of places meets an amount. */
function meets(number: number, amount: Amount, all: number): boolean {
  switch (amount.kind) {
    case 'every':
      return number === all;
    case 'none':
      return number === 0;
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
      return { words: `every ${unit}`, plural: false };
    case 'none':
      return { words: `no ${unit}`, plural: false };
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
function quantified(quantity: Quantity, predicate: Predicate<Span>): Claim {
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
      const against = amount.kind === 'every' ? whose(found, 'fails') : yes;
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
      map(sequence(placeName, word('never'), predicate), ([place, , says]) =>
        quantified({ amount: { kind: 'none' }, unit: 'bar', place }, says),
      ),
      map(sequence(placeName, word('always'), predicate), ([place, , says]) =>
        quantified({ amount: { kind: 'every' }, unit: 'bar', place }, says),
      ),
    ),
  );

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
function ordinal(says: Ordinal, of: Predicate<Span>): Predicate<Span> {
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
export const ordinalPredicate = (predicate: Parser<Predicate<Span>>): Parser<Predicate<Span>> =>
  rule('OrdinalPredicate', () =>
    map(
      sequence(be, word('the'), whiches, units, scope, word('that', 'which', 'where it'), predicate),
      ([{ negated }, , which, unit, place, , of]) => {
        const says = ordinal({ which, unit, place }, of);
        return negated ? negation(says) : says;
      },
    ),
  );

/** Sentences that show the forms of this file. */
export const quantifiedExamples = [
  'every bar of bars 1-6 has 1 chord',
  'no bar of bars 1-8 is V7/V',
  'exactly 2 chords of the piece are N6',
  'bar 2 is the first bar of the piece that has A#',
];
