import type { Bar, Score } from '../score/index.js';
import type { BarRange } from './model.js';

/** `3`, `8b`, `1-4`, `1 – 4`. */
export const barRangePattern = /^\d{1,5}[a-z]?(?: ?[-–] ?\d{1,5}[a-z]?)?$/;

interface Label {
  readonly number: number;
  /** Letter of an ending, or empty. */
  readonly ending: string;
}

function readLabel(text: string): Label {
  const match = /^(\d+)([a-z]?)$/.exec(text.trim());
  return { number: Number(match?.[1] ?? 0), ending: match?.[2] ?? '' };
}

/** First and last bar of a text that fits `barRangePattern`, as labels without leading zeros. */
export function readBarRange(text: string): Pick<BarRange, 'first' | 'last'> {
  const [first = '', last = first] = text.split(/[-–]/).map(part => {
    const label = readLabel(part);
    return `${label.number}${label.ending}`;
  });
  return { first, last };
}

/** Whether the last bar comes before the first. */
export function isBackwards({ first, last }: Pick<BarRange, 'first' | 'last'>): boolean {
  const [a, b] = [readLabel(first), readLabel(last)];
  return (
    b.number < a.number ||
    (b.number === a.number && a.ending !== '' && b.ending !== '' && b.ending < a.ending)
  );
}

/** A bar range in a score: indices into `Score.bars`, both inclusive. */
export type BarsInScore =
  | { readonly kind: 'bars'; readonly from: number; readonly to: number }
  | { readonly kind: 'missing'; readonly label: string };

/**
 * Finds the bars of a range; the whole score where there is no range. A number without a letter means all its endings.
 * `missing` names the first label that the score does not have.
 */
export function findBars(score: Score, range: BarRange | undefined): BarsInScore {
  if (range === undefined) return { kind: 'bars', from: 0, to: score.bars.length - 1 };
  const from = score.bars.findIndex(bar => isCalled(bar, range.first));
  if (from < 0) return { kind: 'missing', label: range.first };
  const to = score.bars.findLastIndex(bar => isCalled(bar, range.last));
  return to < 0 ? { kind: 'missing', label: range.last } : { kind: 'bars', from, to };
}

function isCalled(bar: Bar, label: string): boolean {
  return bar.label === label || String(bar.number) === label;
}
