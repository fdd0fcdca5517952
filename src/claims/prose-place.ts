import { fraction } from '../score/index.js';
import { sentenceAround } from './asserted.js';
import { startReading } from './grammar/index.js';
import { placeName, printPlace } from './place/place-name.js';
import type { Place } from './place/place.js';

const wordStart = /(?<![\p{L}\p{N}])[\p{L}\p{N}]/gu;
const ofStep =
  /(?:the|its|this)\s+(first|second|third|fourth|last|final|next|following)\s+(?:bar|measure)(?!\p{L})(?!\s+of\s+the\s+(?:piece|waltz|music|score))/iuy;
/** `after bar 4`, `as in bar 4`: what is said is not said of that bar. */
const notThere =
  /(?:after|before|until|till|since|from|unlike|like|than|as(?:\s+in)?|to|towards|into|leaving)\s+(?:the\s+)?$/iu;
/** `in the bar before`: before the one that was named last. */
const barBefore = /the\s+(?:bar|measure)\s+before(?=[,.;:]|\s+that(?!\p{L}))/iuy;
/** `two bars later`: counted from the bar that was named last. */
const later = /(one|an?|two|three|four|\d{1,2})\s+(?:bars?|measures?)\s+(?:later|further\s+on)(?!\p{L})/iuy;
/** `on beat three`: of the bar that was named last. */
const beat =
  /(?:the\s+)?(?:(first|second|third|fourth|last|final)\s+beat|beat\s+(one|two|three|four|[1-9])|(downbeat))(?!\p{L})(?!\s+of(?!\p{L}))/iuy;
const numbers: Readonly<Record<string, number>> = {
  a: 1,
  one: 1,
  first: 1,
  downbeat: 1,
  two: 2,
  second: 2,
  three: 3,
  third: 3,
  four: 4,
  fourth: 4,
};
const ordinals: Readonly<Record<string, number>> = { first: 0, second: 1, third: 2, fourth: 3 };

interface Named {
  readonly from: number;
  readonly to: number;
  /** `undefined` for a bar that cannot be told. */
  readonly place: Place | undefined;
  /** Named by its order among the bars under discussion, which the claim language does not know. */
  readonly ofStep?: true;
}

const oneBar = (label: number): Place => ({ kind: 'bars', first: String(label), last: String(label) });

/** A bar by its order among the bars under discussion, or behind the one that was named last. */
function barOfStep(which: string, place: Place, before: Named | undefined): Place | undefined {
  if (which === 'next' || which === 'following') {
    const last = endOf(before?.place);
    return last === undefined ? undefined : oneBar(last + 1);
  }
  if (place.kind !== 'bars' || !/^\d+$/u.test(place.first) || !/^\d+$/u.test(place.last)) return undefined;
  const ordinal = ordinals[which];
  const bar = ordinal === undefined ? Number(place.last) : Number(place.first) + ordinal;
  return bar > Number(place.last) ? undefined : oneBar(bar);
}

/** Bars of a step in which a passage is looked for. */
const mostTried = 8;

const barNumber = (label: string): number | undefined => (/^\d+$/u.test(label) ? Number(label) : undefined);

/** The bar on which a place ends, where it has a number. */
function endOf(place: Place | undefined): number | undefined {
  if (place?.kind === 'bars') return barNumber(place.last);
  return place?.kind === 'beats' || place?.kind === 'portion' ? barNumber(place.bar) : undefined;
}
const startOf = (place: Place): number | undefined =>
  place.kind === 'bars' ? barNumber(place.first) : endOf(place);

/** Passages of two bars and more within numbered bars, the longest first; none of a place that is too long to be tried bar by bar. */
export function passagesIn(place: Place): readonly Place[] {
  const [first, last] = [startOf(place), endOf(place)];
  if (place.kind !== 'bars' || first === undefined || last === undefined || last - first > mostTried)
    return [];
  const bars = Array.from({ length: last - first + 1 }, (_, at) => first + at);
  return bars
    .flatMap(from => bars.filter(to => to > from).map(to => [from, to] as const))
    .filter(([from, to]) => to - from < last - first)
    .sort(([a, b], [c, d]) => d - c - (b - a))
    .map(([from, to]) => ({ kind: 'bars', first: String(from), last: String(to) }));
}

/** Whether numbered bars lie among others; bars without numbers lie in none. */
function liesWithin(inner: Place, outer: Place): boolean {
  if (outer.kind === 'piece') return true;
  const [first, last] = [startOf(inner), endOf(inner)];
  const [from, to] = [startOf(outer), endOf(outer)];
  return (
    [first, last, from, to].every(each => each !== undefined) &&
    Number(from) <= Number(first) &&
    Number(last) <= Number(to)
  );
}

/** What is counted from: the last bar that was named, but not in a comparison. */
const lastMeant = (text: string, named: readonly Named[]): Named | undefined =>
  named.findLast(({ from, place }) => place !== undefined && !notThere.test(text.slice(0, from)));

/** A beat of the bar that was named last, or of the only bar under discussion; all of them where it is not told whose beat it is. */
function beatOfBar(which: string, place: Place, before: Named | undefined): Place {
  const near = before?.place ?? place;
  const isOne = near.kind !== 'bars' || near.first === near.last;
  const bar = isOne ? endOf(near) : undefined;
  if (bar === undefined) return place;
  if (which === 'last' || which === 'final')
    return { kind: 'portion', portion: 'last beat', bar: String(bar) };
  const number = fraction(numbers[which] ?? Number(which), 1);
  return { kind: 'beats', bar: String(bar), first: number, last: number };
}

/** A bar so many bars behind the one that was named last. */
function barLater(count: string, place: Place, before: Named | undefined): Place | undefined {
  const from = before?.place;
  const bar = endOf(from);
  // `A bar later`, after two bars, may be either.
  if (from === undefined || bar === undefined || startOf(from) !== bar) return undefined;
  const found = oneBar(bar + (numbers[count] ?? Number(count)));
  return liesWithin(found, place) ? found : undefined;
}

/** Every place that a text names, in its order; `place` is what it speaks of. */
export function placesNamed(text: string, place: Place): readonly Named[] {
  const reading = startReading(text, false);
  const found: Named[] = [];
  let read = 0;
  for (const { index } of text.matchAll(wordStart)) {
    if (index < read) continue;
    ofStep.lastIndex = index;
    const [words, which] = ofStep.exec(text) ?? [];
    const [longest] = [...placeName.read(reading, index).steps].sort((a, b) => b.end - a.end);
    later.lastIndex = index;
    const counted = later.exec(text);
    beat.lastIndex = index;
    const beaten = beat.exec(text);
    barBefore.lastIndex = index;
    const [preceding] = barBefore.exec(text) ?? [];
    const meant = (): Named | undefined => lastMeant(text, found);
    if (preceding !== undefined) {
      read = index + preceding.length;
      const last = meant()?.place;
      const start = last === undefined ? undefined : startOf(last);
      found.push({ from: index, to: read, place: start === undefined ? undefined : oneBar(start - 1) });
    } else if (counted?.[1] !== undefined) {
      read = index + counted[0].length;
      found.push({ from: index, to: read, place: barLater(counted[1].toLowerCase(), place, meant()) });
    } else if (beaten !== null && index + beaten[0].length > (longest?.end ?? 0)) {
      read = index + beaten[0].length;
      const number = (beaten[1] ?? beaten[2] ?? beaten[3] ?? '').toLowerCase();
      found.push({ from: index, to: read, place: beatOfBar(number, place, meant()) });
    } else if (words !== undefined && which !== undefined) {
      read = index + words.length;
      found.push({
        from: index,
        to: read,
        place: barOfStep(which.toLowerCase(), place, meant()),
        ofStep: true,
      });
    } else if (longest !== undefined && !/^(?:piece|section)$/u.test(longest.value.kind)) {
      read = longest.end;
      // `the end` of what is under discussion is not that of the piece.
      const isEdge = place.kind !== 'piece' && /^(?:first|last) bars$/u.test(longest.value.kind);
      found.push({ from: index, to: read, place: isEdge ? undefined : longest.value });
    }
  }
  return found;
}

/** The text with `the second bar` and the like by their numbers, every other word where it was. */
export const withBarNumbers = (text: string, named: readonly Named[]): string =>
  named.reduce(
    (said, { from, to, place, ofStep: isOfStep }) =>
      isOfStep === undefined || place === undefined
        ? said
        : said.slice(0, from) +
          printPlace(place)
            .padEnd(to - from)
            .slice(0, to - from) +
          said.slice(to),
    text,
  );

/** Where a clause ends that another one follows. */
const clauseBreak = /[,;:()–—]|(?<!\p{L})(?:and|but|while|then|so)(?!\p{L})/iu;
/** `in bar 4, the D#`: the comma behind an opening place ends no clause. */
const opening = /^\s*(?:(?:and|but|then|so|here|now)\s+)?(?:in|at|on)?\s*$/iu;

/** Bars of which words may be said, the likeliest first, and whether they stand in the same clause as the words. */
export interface SaidOf {
  readonly places: readonly Place[];
  readonly isNear: boolean;
}

/** How far back a bar is remembered that words without bars speak of; a colon and a semicolon end a sentence too. */
const sentencesBack = 4;

/** The bars that one of the last sentences was about. */
function topicBefore(text: string, start: number, named: readonly Named[], place: Place): Place | undefined {
  let from = start;
  for (let back = 0; back < sentencesBack && from > 0; back++)
    [from] = sentenceAround(text, from - 1, from - 1);
  const topic = lastMeant(
    text,
    named.filter(each => each.from >= from && each.to <= start),
  )?.place;
  return topic !== undefined && liesWithin(topic, place) ? topic : undefined;
}

/**
 * Of which bars the words from `from` to `to` are said: those that their sentence names, the nearest before them first; else those that
 * were spoken of just before, or what the narration speaks of. None where that cannot be told.
 */
export function placesOfWords(
  text: string,
  { from, to }: { readonly from: number; readonly to: number },
  named: readonly Named[],
  place: Place,
): SaidOf {
  const [start, end] = sentenceAround(text, from, to);
  const around = named.filter(each => each.from >= start && each.to <= end);
  const only = (found: Place | undefined): readonly Place[] => (found === undefined ? [] : [found]);
  // `And bar seven? Its melody ...`: of what was named last.
  if (/(?<!\p{L})(?:its|their)\s+$/iu.test(text.slice(0, from)))
    return { places: only(named.findLast(each => each.to <= from)?.place), isNear: true };
  const isInClause = (each: Named): boolean => {
    const between = text.slice(each.to, from);
    const opens = opening.test(text.slice(start, each.from)) && clauseBreak.exec(between)?.[0] === ',';
    return !clauseBreak.test(opens ? between.replace(',', ' ') : between);
  };
  const before = around.findLast(each => each.to <= from);
  // What follows in another clause is another matter.
  const after = around.filter(each => each.from >= to && !clauseBreak.test(text.slice(to, each.from)));
  const [behind] = after.length === 1 ? after : [];
  const isBefore = before !== undefined && (behind === undefined || isInClause(before));
  const chosen = isBefore ? before : behind;
  if (chosen === undefined) {
    const topic = topicBefore(text, start, named, place);
    return {
      places: after.length > 0 ? [] : topic === undefined ? [place] : [topic, place],
      isNear: true,
    };
  }
  if (notThere.test(text.slice(start, chosen.from))) return { places: [], isNear: false };
  const isNear = !isBefore || isInClause(chosen);
  return {
    places: isNear || chosen.place === undefined ? only(chosen.place) : [chosen.place, place],
    isNear,
  };
}
