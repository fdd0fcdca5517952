import { compare, isBefore } from '../../score/index.js';
import type { Fraction } from '../../score/index.js';
import type { Judged, Predicate } from '../claim.js';
import { wordsFor } from '../grammar/index.js';
import type { ClaimContext, Evidence, Range, Verdict } from '../model.js';
import { endOf, momentOf } from '../place/beats.js';
import { partsOf } from '../place/find-section.js';
import type { Place, PlaceName } from '../place/place.js';
import { beatsOf, isResolved, resolvePlace } from '../place/resolve.js';
import { rangeOf } from '../range-of.js';
import { liesIn, segmentsIn } from '../segments.js';
import { harmoniesOf } from '../subjects/harmonies.js';
import { span } from '../subjects/span.js';
import type { PlaceSubject, Span } from '../subjects/span.js';

/** What is counted: the bars, the beats, the chords, the phrases or the sections of a place. */
export type Unit = 'bar' | 'beat' | 'chord' | 'phrase' | 'section';

/** The word for a unit. */
export const units = wordsFor<Unit>([
  ['bar', 'bar', 'bars', 'measure', 'measures'],
  ['beat', 'beat', 'beats'],
  ['chord', 'chord', 'chords', 'harmony', 'harmonies'],
  ['phrase', 'phrase', 'phrases', 'four-bar phrase', 'four-bar phrases', 'four-measure phrase'],
  ['section', 'section', 'sections', 'strain', 'strains', 'reprise', 'reprises', 'half', 'halves'],
]);

/** A moment as a place name, the end of a bar as the first beat of the next. */
export function nameOf(onset: Fraction, isEnd: boolean, context: ClaimContext): PlaceName | undefined {
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
function placesOf(
  unit: Exclude<Unit, 'phrase' | 'section'>,
  range: Range,
  context: ClaimContext,
): readonly PlaceSubject[] {
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
          const found = resolvePlace(beat, context);
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
export function unitsOf(unit: Unit, place: Place, context: ClaimContext): Units {
  const found = rangeOf(place, context);
  if ('problem' in found) return found;
  if (unit !== 'phrase' && unit !== 'section') return { places: placesOf(unit, found.range, context) };
  const parts = partsOf(unit, found.range, context);
  if ('problem' in parts)
    return {
      problem: { verdict: 'undecided', code: 'C0010', reason: parts.problem, evidence: [] },
    };
  return {
    places: parts.flatMap(bars => {
      const [first, last] = [bars[0], bars.at(-1)];
      return first === undefined || last === undefined
        ? []
        : [span({ kind: 'bars', first: first.label, last: last.label })];
    }),
  };
}

/** What a predicate is of each of some places. */
export interface Tally {
  readonly places: readonly PlaceSubject[];
  readonly findings: readonly Judged[];
}

/** Asks a predicate of each place. */
export function tally(
  places: readonly PlaceSubject[],
  predicate: Predicate<Span>,
  context: ClaimContext,
): Tally {
  const findings = places.map((place): Judged => {
    const resolution = place.resolve(context);
    if (resolution.kind === 'found') return predicate.check(resolution.subject, context);
    return resolution.kind === 'none'
      ? resolution.finding
      : { verdict: 'undecided', code: 'C0007', reason: 'several endings', evidence: [] };
  });
  return { places, findings };
}

/** Indices of the places with one of these verdicts. */
export const whose = (
  { places, findings }: Tally,
  ...words: readonly Verdict['verdict'][]
): readonly number[] =>
  places.flatMap((_, at) => (words.includes(findings[at]?.verdict ?? 'undecided') ? [at] : []));

/** The places of some indices, as a list. */
export const names = (of: Tally, indices: readonly number[]): string => {
  const shown = indices.slice(0, 8).flatMap(at => of.places[at]?.print() ?? []);
  return `${shown.join(', ')}${indices.length > shown.length ? ` and ${String(indices.length - shown.length)} more` : ''}`;
};

/** The first notes that decide at some indices. */
export const evidenceAt = (of: Tally, indices: readonly number[]): readonly Evidence[] =>
  indices.slice(0, 4).flatMap(at => (of.findings[at]?.evidence ?? []).slice(0, 4));
