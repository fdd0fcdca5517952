import { compare } from '../../score/index.js';
import type { Bar, Fraction } from '../../score/index.js';
import type { Resolution, Subject } from '../claim.js';
import { choice, map, sequence, word } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';
import type { ClaimContext, Range } from '../model.js';
import { at, barList, placeName, printPlace } from '../place/place-name.js';
import { isPlural } from '../place/place.js';
import type { Place } from '../place/place.js';
import { beatsOf, isResolved, resolvePlace } from '../place/resolve.js';
import type { Resolved } from '../place/resolve.js';
import { liesIn } from '../segments.js';

/** A stretch of the score that a sentence speaks of. */
export interface Span {
  readonly range: Range;
  /** Where the sentence speaks of one beat. */
  readonly moment?: Fraction;
  /** As the author wrote it: `bar 5 beat 3`. */
  readonly name: string;
  readonly place: Place;
}

/** The range in which a chord or an arrival is looked for: the moment of a beat, else the whole stretch. */
export const rangeOrMoment = ({ range, moment }: Span): Range =>
  moment === undefined ? range : { start: moment, end: moment };

const shiftLabel = (bars: readonly Bar[], label: string, by: number): string | undefined => {
  const at =
    by < 0 ? bars.findIndex(bar => bar.label === label) : bars.findLastIndex(bar => bar.label === label);
  return at < 0 ? undefined : bars[at + by]?.label;
};

/** The place `by` bars later, where the piece has one. */
function shiftedByBars(place: Place, bars: readonly Bar[], by: number): Place | undefined {
  switch (place.kind) {
    case 'bars': {
      const first = shiftLabel(bars, place.first, by);
      const last = shiftLabel(bars, place.last, by);
      return first === undefined || last === undefined ? undefined : { ...place, first, last };
    }
    case 'beats': {
      const bar = shiftLabel(bars, place.bar, by);
      return bar === undefined ? undefined : { ...place, bar };
    }
    case 'stretch': {
      const from = shiftLabel(bars, place.from.bar, by);
      const until = shiftLabel(bars, place.until.bar, by);
      return from === undefined || until === undefined
        ? undefined
        : { ...place, from: { ...place.from, bar: from }, until: { ...place.until, bar: until } };
    }
    case 'portion': {
      const bar = shiftLabel(bars, place.bar, by);
      return bar === undefined ? undefined : { ...place, bar };
    }
    case 'first bars':
    case 'last bars':
    case 'side':
    case 'pickup':
    case 'section':
    case 'piece':
      return undefined;
  }
}

/** The other beats of the bar of a one-beat place, nearest first. */
function otherBeats(place: Place, context: ClaimContext): readonly Place[] {
  if (place.kind !== 'beats' || compare(place.first, place.last) !== 0) return [];
  const distance = (other: Place): number =>
    other.kind === 'beats' ? Math.abs(other.first.n / other.first.d - place.first.n / place.first.d) : 0;
  return context.analysis.score.bars
    .filter(bar => bar.label === place.bar)
    .flatMap(bar => beatsOf(bar, context.beatUnit))
    .filter(other => distance(other) > 0)
    .sort((a, b) => distance(a) - distance(b));
}

/** A place as a subject; its neighbours and endings are places too. */
export interface PlaceSubject extends Subject<Span> {
  readonly place: Place;
  readonly resolve: (
    context: ClaimContext,
  ) => Exclude<Resolution<Span>, { readonly kind: 'endings' }> | Endings;
  readonly neighbours: (context: ClaimContext) => readonly PlaceSubject[];
}

interface Endings {
  readonly kind: 'endings';
  readonly subjects: readonly PlaceSubject[];
}

/** A place where it lies; a section by its bars, besides its name. */
function found(place: Place, resolved: Resolved, { analysis }: ClaimContext): Span {
  const bars =
    place.kind === 'section' ? analysis.score.bars.filter(bar => liesIn(bar.start, resolved.range)) : [];
  const [first, last] = [bars[0], bars.at(-1)];
  if (bars.length === analysis.score.bars.length)
    return { ...resolved, place: { kind: 'piece' }, name: printPlace(place) };
  if (first === undefined || last === undefined) return { ...resolved, place, name: printPlace(place) };
  const own: Place = { kind: 'bars', first: first.label, last: last.label };
  return { ...resolved, place: own, name: `${printPlace(place)} (${printPlace(own)})` };
}

export const span = (place: Place): PlaceSubject => ({
  place,
  content: place,
  plural: isPlural(place),
  print: () => printPlace(place),
  resolve: context => {
    const resolved = resolvePlace(place, context);
    if (isResolved(resolved)) return { kind: 'found', subject: found(place, resolved, context) };
    if ('endings' in resolved) return { kind: 'endings', subjects: resolved.endings.map(span) };
    const { code, problem } = resolved;
    const verdict = code === 'C0010' ? 'undecided' : 'fails';
    return { kind: 'none', finding: { verdict, code, reason: problem, evidence: [] } };
  },
  neighbours: context => {
    const { bars } = context.analysis.score;
    const shifted = [-1, 1].flatMap(by => shiftedByBars(place, bars, by) ?? []);
    return [...otherBeats(place, context), ...shifted].map(span);
  },
});

/** `bars 1 and 3`, `bars 2, 4 and 6`: bars that are no neighbours, each a subject of its own. */
export const severalBars: Parser<readonly Subject<Span>[]> = map(barList, labels =>
  labels.map(label => span({ kind: 'bars', first: label, last: label })),
);

/** A place, or what sounds in it: `bar 5`, `the chord in bar 5`, `the harmony of bar 5`. */
export const spanSubject: Parser<Subject<Span>> = choice(
  map(placeName, span),
  map(sequence(word('the'), word('chord', 'harmony', 'music'), at, placeName), ([, , , place]) =>
    span(place),
  ),
);
