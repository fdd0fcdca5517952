import { printKey } from '../harmony/index.js';
import type { Analysis, Segment } from '../harmony/index.js';
import { printPitchClass } from '../score/index.js';
import { barsText } from '../timeline/index.js';
import { lastBarBefore, printedPlace } from './analysis-place.js';
import { counted } from './counted.js';

/** Passages of one kind in words. */
export interface PassageLines {
  readonly title: string;
  readonly lines: readonly string[];
}

/** Keys, cadences, pedals and sequences of a piece, a line each; a kind of which there is none is left out. */
export function passageLines({
  score,
  keyAreas,
  cadences,
  pedals,
  sequences,
}: Analysis): readonly PassageLines[] {
  const bars = (start: Segment['start'], end: Segment['end']): string => {
    const [first, last] = [printedPlace(score, start).bar, lastBarBefore(score, end)];
    return barsText({ first, last });
  };
  const section = (title: string, lines: readonly string[]): readonly PassageLines[] =>
    lines.length === 0 ? [] : [{ title, lines }];
  return [
    ...section(
      'keys',
      keyAreas.map(({ start, end, key }) => `${bars(start, end)}: ${printKey(key)}`),
    ),
    ...section(
      'cadences',
      cadences.map(({ kind, onset, key, phrygian }) => {
        const { bar, beat } = printedPlace(score, onset);
        return `bar ${bar} beat ${beat}: ${phrygian ? 'Phrygian ' : ''}${kind} cadence in ${printKey(key)}`;
      }),
    ),
    ...section(
      'pedals',
      pedals.map(
        ({ start, end, tone, position }) =>
          `${bars(start, end)}: ${printPitchClass(tone)} in the ${position}`,
      ),
    ),
    ...section(
      'sequences',
      sequences.map(({ start, statements, step, real }) => {
        const direction = step < 0 ? 'down' : 'up';
        return `from bar ${printedPlace(score, start).bar}: ${counted(statements, 'statement')}, each ${counted(Math.abs(step), 'step')} ${direction}${real ? ', real' : ''}`;
      }),
    ),
  ];
}
