import { sentenceAround } from './asserted.js';
import { startReading } from './grammar/index.js';
import { placeName, printPlace } from './place/place-name.js';
import type { Place } from './place/place.js';

const wordStart = /(?<![\p{L}\p{N}])[\p{L}\p{N}]/gu;
const ofStep =
  /(?:the|its|this)\s+(first|second|third|fourth|last|final|next|following)\s+(?:bar|measure)(?!\p{L})(?!\s+of\s+the\s+(?:piece|waltz|music|score))/iuy;
/** `after bar 4`, `as in bar 4`: what is said is not said of that bar. */
const notThere =
  /(?:after|before|until|till|since|from|unlike|like|than|as\s+in|to|towards|into|leaving)\s+(?:the\s+)?$/iu;
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
    const last = before?.place;
    return last?.kind === 'bars' && /^\d+$/u.test(last.last) ? oneBar(Number(last.last) + 1) : undefined;
  }
  if (place.kind !== 'bars' || !/^\d+$/u.test(place.first) || !/^\d+$/u.test(place.last)) return undefined;
  const ordinal = ordinals[which];
  const bar = ordinal === undefined ? Number(place.last) : Number(place.first) + ordinal;
  return bar > Number(place.last) ? undefined : oneBar(bar);
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
    if (words !== undefined && which !== undefined) {
      read = index + words.length;
      found.push({
        from: index,
        to: read,
        place: barOfStep(which.toLowerCase(), place, found.at(-1)),
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

/** Bars of which words are said, and whether they stand in the same clause as the words. */
export interface SaidOf {
  readonly place: Place | undefined;
  readonly isNear: boolean;
}

/**
 * Of which bars the words from `from` to `to` are said: those that their sentence names, the nearest before them first, else what the
 * narration speaks of. No place where that cannot be told.
 */
export function placeOfWords(
  text: string,
  { from, to }: { readonly from: number; readonly to: number },
  named: readonly Named[],
  place: Place,
): SaidOf {
  const [start, end] = sentenceAround(text, from, to);
  const around = named.filter(each => each.from >= start && each.to <= end);
  // `And bar seven? Its melody ...`: of what was named last.
  if (/(?<!\p{L})(?:its|their)\s+$/iu.test(text.slice(0, from)))
    return { place: named.findLast(each => each.to <= from)?.place, isNear: true };
  const before = around.findLast(each => each.to <= from);
  // What follows in another clause is another matter.
  const after = around.filter(each => each.from >= to && !clauseBreak.test(text.slice(to, each.from)));
  const chosen = before ?? (after.length === 1 ? after[0] : undefined);
  if (chosen === undefined) return { place: after.length === 0 ? place : undefined, isNear: true };
  if (notThere.test(text.slice(start, chosen.from))) return { place: undefined, isNear: false };
  const between = text.slice(chosen.to, from);
  const opens = opening.test(text.slice(start, chosen.from)) && clauseBreak.exec(between)?.[0] === ',';
  const isNear = before === undefined || !clauseBreak.test(opens ? between.replace(',', ' ') : between);
  return { place: chosen.place, isNear };
}
