/** The least and the greatest sample of each column of a waveform. */
export interface WavePeaks {
  readonly least: Float32Array;
  readonly greatest: Float32Array;
}

/**
 * Divides a sound into columns, as evenly as its samples allow; every sample belongs to one column. Where there are more columns than
 * samples, a column without a sample of its own repeats the one before it.
 */
export function wavePeaks(samples: Float32Array, columns: number): WavePeaks {
  const least = new Float32Array(columns);
  const greatest = new Float32Array(columns);
  for (let column = 0; column < columns; column += 1) {
    const from = Math.floor((column * samples.length) / columns);
    const to = Math.max(from + 1, Math.floor(((column + 1) * samples.length) / columns));
    let [low, high] = [Infinity, -Infinity];
    for (let at = from; at < to; at += 1) {
      const sample = samples[at] ?? 0;
      low = Math.min(low, sample);
      high = Math.max(high, sample);
    }
    least[column] = low;
    greatest[column] = high;
  }
  return { least, greatest };
}

/** Both bounds as one closed outline (SVG path data), one unit wide for each column and from 0 (top) to 2 high. */
export function outlineOf({ least, greatest }: WavePeaks): string {
  const point = (column: number, sample: number): string => `${String(column)} ${(1 - sample).toFixed(3)}`;
  const above = Array.from(greatest, (sample, column) => point(column, sample));
  const below = Array.from(least, (sample, column) => point(column, sample)).reverse();
  return above.length === 0 ? '' : `M${[...above, ...below].join('L')}Z`;
}
