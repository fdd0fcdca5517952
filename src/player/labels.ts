import type { Layer } from '../lesson/index.js';
import type { PageData, PageScore, PageSegment, PageStep } from '../timeline/index.js';
import { withAccidentals } from '../timeline/index.js';
import type { Settings } from './settings.js';

/** What is written at the staff for a step right now. */
export interface Labels {
  readonly layers: ReadonlySet<Layer>;
  /** Positions of the harmonies whose labels are covered. */
  readonly covered: ReadonlySet<number>;
}

/** Positions of the harmonies that sound in a step, in order. */
export function harmoniesOf(score: PageScore, step: PageStep): readonly number[] {
  const first = score.bars[step.firstBar];
  const last = score.bars[step.lastBar];
  if (first === undefined || last === undefined) return [];
  return score.segments.flatMap(({ start, end }, index) =>
    start < last.start + last.length && end > first.start ? [index] : [],
  );
}

/**
 * What of a step's labels may be seen. A label must not give away the answer to a question that still stands, so a step with an open
 * question shows none.
 */
export function labelsFor(
  data: PageData,
  step: number,
  settings: Pick<Settings, 'labels' | 'layers' | 'oneByOne'>,
  isAnswered: (ask: string) => boolean,
  uncovered: ReadonlySet<number>,
): Labels {
  const shown = data.steps[step];
  const [score] = data.scores;
  const open = shown?.script.some(action => action.kind === 'ask' && !isAnswered(action.id)) ?? false;
  if (shown === undefined || score === undefined || open || settings.labels === 'none')
    return { layers: new Set(), covered: new Set() };
  const layers = new Set(settings.labels === 'own' ? settings.layers : shown.show);
  const harmonies = settings.oneByOne ? harmoniesOf(score, shown) : [];
  return { layers, covered: new Set(harmonies.filter(index => !uncovered.has(index))) };
}

/** The harmony that is uncovered next in a step; `undefined` where none is covered. */
export function nextCovered(
  { scores: [score], steps }: PageData,
  step: number,
  { covered }: Labels,
): number | undefined {
  const shown = steps[step];
  if (score === undefined || shown === undefined) return undefined;
  return harmoniesOf(score, shown).find(index => covered.has(index));
}

/** A harmony as it is told when its label is uncovered: `V7, A7, in D minor`. */
export function harmonyInWords({ roman, chord, key }: PageSegment): string {
  return `${roman}, ${withAccidentals(chord)}, in ${withAccidentals(key)}`;
}
