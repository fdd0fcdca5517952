import { add, compare, divide, fraction, isBefore, least, one } from '../../score/index.js';
import type { Bar, Fraction, Score } from '../../score/index.js';
import type { Code } from '../../diagnostics/index.js';
import type { ClaimContext, Range } from '../model.js';
import { printBeat } from '../terms/number.js';
import { beatAt, beatUnitOf, endOf, onsetOfBeat } from './beats.js';
import { barsOfSection } from './find-section.js';
import { printPlace } from './place-name.js';
import { isPlural } from './place.js';
import type { Place, PlaceName, Portion } from './place.js';

/** Where a place lies in the written score. */
export interface Resolved {
  readonly range: Range;
  /** Where the place is one beat: what is said of it is said of this moment. */
  readonly moment?: Fraction;
}

/** Why a place is none of this piece. */
export interface PlaceProblem {
  readonly code: Code;
  readonly problem: string;
}

/** `8` means `8a` or `8b` where the bar has alternative endings. */
export interface SeveralEndings {
  readonly endings: readonly Place[];
}

const isProblem = (value: object): value is PlaceProblem => 'problem' in value;

const outside = (problem: string): PlaceProblem => ({ code: 'C0003', problem });

/** All bars that are printed under a label: two where a repeat sign cuts a bar. */
const barsNamed = (score: Score, label: string): readonly Bar[] =>
  score.bars.filter(bar => bar.label === label);

function describeBars(score: Score): string {
  const numbered = score.bars.filter(bar => bar.number > 0);
  const last = numbered[numbered.length - 1];
  const pickup = score.bars[0]?.number === 0 ? ' and a pickup, bar 0' : '';
  return last === undefined
    ? 'the piece has no bars'
    : `the piece has bars 1 to ${String(last.number)}${pickup}`;
}

const noBar = (score: Score, label: string): PlaceProblem =>
  outside(`there is no bar ${label}: ${describeBars(score)}`);

const describeBeats = (bar: Bar, unit: Fraction): string => {
  const last = beatAt(bar, endOf(bar), unit);
  const first = beatAt(bar, bar.start, unit);
  return `bar ${bar.label} runs from beat ${printBeat(first)} to the end of beat ${printBeat(fraction(Math.ceil(last.n / last.d) - 1))}`;
};

/** The onset of a beat; `closing` allows the moment at which the bar ends. */
function onsetOf(
  score: Score,
  label: string,
  beat: Fraction,
  own: Fraction | undefined,
  closing = false,
): Fraction | PlaceProblem {
  const bars = barsNamed(score, label);
  const [first] = bars;
  if (first === undefined) return noBar(score, label);
  for (const bar of bars) {
    const onset = onsetOfBeat(bar, beat, beatUnitOf(bar.meter, own));
    const place = compare(onset, endOf(bar));
    if (!isBefore(onset, bar.start) && (place < 0 || (place === 0 && closing))) return onset;
  }
  return outside(
    `there is no beat ${printBeat(beat)} in bar ${label}: ${describeBeats(first, beatUnitOf(first.meter, own))}`,
  );
}

/** End of the beat that holds a moment. */
function endOfBeat(
  score: Score,
  label: string,
  beat: Fraction,
  own: Fraction | undefined,
): Fraction | PlaceProblem {
  const start = onsetOf(score, label, beat, own);
  if (isProblem(start)) return start;
  const bar = barsNamed(score, label).find(
    each => compare(start, endOf(each)) < 0 && compare(start, each.start) >= 0,
  );
  if (bar === undefined) return noBar(score, label);
  const next = fraction(Math.floor(beat.n / beat.d) + 1);
  return least(onsetOfBeat(bar, next, beatUnitOf(bar.meter, own)), endOf(bar));
}

function onsetOfName(
  score: Score,
  name: PlaceName,
  own: Fraction | undefined,
  closing: boolean,
): Fraction | PlaceProblem {
  if (name.beat !== undefined) return onsetOf(score, name.bar, name.beat, own, closing);
  return barsNamed(score, name.bar)[0]?.start ?? noBar(score, name.bar);
}

function rangeOf(
  start: Fraction | PlaceProblem,
  end: Fraction | PlaceProblem,
  place: Place,
): Resolved | PlaceProblem {
  if (isProblem(start)) return start;
  if (isProblem(end)) return end;
  if (compare(start, end) >= 0)
    return {
      code: 'C0004',
      problem: `${printPlace(place)} ${isPlural(place) ? 'end before they begin' : 'ends before it begins'}`,
    };
  return { range: { start, end } };
}

function barSpan(
  first: Bar | undefined,
  last: Bar | undefined,
  place: Place,
  score: Score,
): Resolved | PlaceProblem {
  if (first === undefined || last === undefined) return outside(describeBars(score));
  return rangeOf(first.start, endOf(last), place);
}

/** The labels that a place names, to see whether one of them has endings. */
function labelsOf(place: Place): readonly string[] {
  switch (place.kind) {
    case 'bars':
      return [place.first, place.last];
    case 'beats':
    case 'side':
    case 'portion':
      return [place.bar];
    case 'stretch':
      return [place.from.bar, place.until.bar];
    case 'first bars':
    case 'last bars':
    case 'pickup':
    case 'section':
    case 'piece':
      return [];
  }
}

function relabelled(place: Place, from: string, to: string): Place {
  const swap = (label: string): string => (label === from ? to : label);
  switch (place.kind) {
    case 'bars':
      return { ...place, first: swap(place.first), last: swap(place.last) };
    case 'beats':
    case 'side':
    case 'portion':
      return { ...place, bar: swap(place.bar) };
    case 'stretch':
      return {
        ...place,
        from: { ...place.from, bar: swap(place.from.bar) },
        until: { ...place.until, bar: swap(place.until.bar) },
      };
    case 'first bars':
    case 'last bars':
    case 'pickup':
    case 'section':
    case 'piece':
      return place;
  }
}

/** Where a number without its letter names several endings. A range of bars runs from the first to the last of them. */
function endingsOf(score: Score, place: Place): readonly Place[] | undefined {
  for (const label of labelsOf(place)) {
    if (barsNamed(score, label).length > 0 || !/^\d+$/u.test(label)) continue;
    const endings = [
      ...new Set(score.bars.filter(bar => String(bar.number) === label).map(bar => bar.label)),
    ];
    const [firstEnding] = endings;
    if (firstEnding === undefined) continue;
    if (place.kind === 'bars' && place.first !== place.last) {
      const last = endings[endings.length - 1] ?? firstEnding;
      const first = place.first === label ? firstEnding : place.first;
      return [{ ...place, first, last: place.last === label ? last : place.last }];
    }
    return endings.map(ending => relabelled(place, label, ending));
  }
  return undefined;
}

/** All on one side of a bar. */
function sideOf(place: Extract<Place, { readonly kind: 'side' }>, score: Score): Resolved | PlaceProblem {
  const named = barsNamed(score, place.bar);
  const [opening] = score.bars;
  const closing = score.bars.at(-1);
  const [first] = named;
  const last = named.at(-1);
  if (first === undefined || last === undefined || opening === undefined || closing === undefined)
    return noBar(score, place.bar);
  const opens = place.side === 'before' || place.side === 'up to';
  const range = {
    start: opens ? opening.start : place.side === 'from' ? first.start : endOf(last),
    end: opens ? (place.side === 'before' ? first.start : endOf(last)) : endOf(closing),
  };
  return isBefore(range.start, range.end)
    ? { range }
    : outside(`there is nothing ${place.side} bar ${place.bar}: ${describeBars(score)}`);
}

/** How many beats a portion counts from the end of its bar; none where it is a half. */
const lastBeats: Readonly<Record<Portion, number>> = {
  'last beat': 1,
  'last 2 beats': 2,
  'last 3 beats': 3,
  'first half': 0,
  'second half': 0,
};

/** The last beats of a bar, or half of it. */
function portionOf(
  place: Extract<Place, { readonly kind: 'portion' }>,
  context: ClaimContext,
): Resolved | PlaceProblem | SeveralEndings {
  const { score } = context.analysis;
  const own = context.beatUnit;
  const [bar] = barsNamed(score, place.bar);
  if (bar === undefined) return noBar(score, place.bar);
  const number = lastBeats[place.portion];
  if (number > 0) {
    const beats = beatsOf(bar, own).slice(-number);
    const [first, last] = [beats[0], beats.at(-1)];
    if (first?.kind !== 'beats' || last?.kind !== 'beats' || beats.length < number)
      return outside(`bar ${bar.label} has no ${String(number)} beats`);
    return resolvePlace({ ...first, last: last.last }, context);
  }
  const middle = divide(add(bar.start, endOf(bar)), fraction(2));
  return place.portion === 'first half'
    ? rangeOf(bar.start, middle, place)
    : rangeOf(middle, endOf(bar), place);
}

/**
 * Finds a place in the score, a section by the cadences and the notation.
 * A place outside the piece, a beat that a bar does not have and a stretch that runs backwards come back as a problem.
 */
export function resolvePlace(place: Place, context: ClaimContext): Resolved | PlaceProblem | SeveralEndings {
  const { score } = context.analysis;
  const own = context.beatUnit;
  const endings = endingsOf(score, place);
  if (endings !== undefined) {
    const [only] = endings;
    return endings.length === 1 && only !== undefined ? resolvePlace(only, context) : { endings };
  }
  const full = score.bars.filter(bar => bar.number > 0);
  switch (place.kind) {
    case 'bars': {
      const first = barsNamed(score, place.first)[0];
      const last = barsNamed(score, place.last).at(-1);
      if (first === undefined) return noBar(score, place.first);
      if (last === undefined) return noBar(score, place.last);
      return barSpan(first, last, place, score);
    }
    case 'beats': {
      const start = onsetOf(score, place.bar, place.first, own);
      const resolved = rangeOf(start, endOfBeat(score, place.bar, place.last, own), place);
      const isOne = compare(place.first, place.last) === 0;
      return isOne && !isProblem(resolved) ? { ...resolved, moment: resolved.range.start } : resolved;
    }
    case 'stretch':
      return rangeOf(
        onsetOfName(score, place.from, own, false),
        onsetOfName(score, place.until, own, true),
        place,
      );
    case 'first bars':
    case 'last bars': {
      if (place.count < 1 || place.count > full.length) return outside(describeBars(score));
      const chosen = place.kind === 'first bars' ? full.slice(0, place.count) : full.slice(-place.count);
      return barSpan(chosen[0], chosen.at(-1), place, score);
    }
    case 'side':
      return sideOf(place, score);
    case 'portion':
      return portionOf(place, context);
    case 'pickup': {
      const pickup = score.bars.find(bar => bar.number === 0);
      return pickup === undefined
        ? outside('the piece has no pickup: it begins on beat 1 of bar 1')
        : barSpan(pickup, pickup, place, score);
    }
    case 'section': {
      const bars = barsOfSection(place.section, context);
      if ('problem' in bars) return { code: 'C0010', problem: bars.problem };
      // With its pickup: a dance without a trio is the piece.
      return bars.length === full.length
        ? barSpan(score.bars[0], score.bars.at(-1), place, score)
        : barSpan(bars[0], bars.at(-1), place, score);
    }
    case 'piece':
      return barSpan(score.bars[0], score.bars.at(-1), place, score);
  }
}

/** Whether a place could be resolved to one range. */
export const isResolved = (value: Resolved | PlaceProblem | SeveralEndings): value is Resolved =>
  'range' in value;

/** The beats of a bar as places, for probing. */
export function beatsOf(bar: Bar, own: Fraction | undefined): readonly Place[] {
  const unit = beatUnitOf(bar.meter, own);
  const last = beatAt(bar, endOf(bar), unit);
  const places: Place[] = [];
  const first = beatAt(bar, bar.start, unit);
  for (
    let beat = fraction(Math.ceil(first.n / first.d));
    isBefore(beat, last);
    beat = fraction(beat.n + one.n)
  )
    places.push({ kind: 'beats', bar: bar.label, first: beat, last: beat });
  return places;
}
