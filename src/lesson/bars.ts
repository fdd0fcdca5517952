import type { Score } from '../score/index.js';
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

/** The first label of a range that a score does not have. A number without a letter means all its endings. */
export function missingBar(score: Score, range: BarRange): string | undefined {
  return [range.first, range.last].find(
    label => !score.bars.some(bar => bar.label === label || String(bar.number) === label),
  );
}
