/** Length of one window in seconds. */
const windowSeconds = 0.001;
/** How far around the expected moment an onset is looked for, in seconds. */
const around = 0.03;

/**
 * How far notes start from where they should, in seconds, found in the sound alone: around each expected onset, the first window of 1 ms
 * in which the energy of the differenced signal (its high part, where an attack shows) leaves what was there before by a hundredth of
 * the way to its greatest value, that is at a tenth of the amplitude. Onsets closer than 80 ms to another one, or without an attack that stands out, are left out.
 */
export function onsetErrors(
  samples: Float32Array,
  sampleRate: number,
  expected: readonly number[],
): readonly number[] {
  const size = Math.round(windowSeconds * sampleRate);
  const energyAt = (window: number): number => {
    let sum = 0;
    for (let i = window * size; i < (window + 1) * size; i += 1)
      sum += ((samples[i] ?? 0) - (samples[i - 1] ?? 0)) ** 2;
    return sum;
  };
  const distinct = [...new Set(expected)].sort((a, b) => a - b);
  return distinct.flatMap((onset, index) => {
    const alone =
      onset - (distinct[index - 1] ?? -1) > 0.08 && (distinct[index + 1] ?? Infinity) - onset > 0.08;
    if (!alone) return [];
    const first = Math.round((onset - around) / windowSeconds);
    const energies = Array.from({ length: Math.round((2 * around) / windowSeconds) }, (_, n) =>
      energyAt(first + n),
    );
    const before = Math.max(...energies.slice(0, 15));
    const greatest = Math.max(...energies);
    if (greatest < before * 4 || greatest === 0) return [];
    const found = energies.findIndex(energy => energy > before * 1.2 + greatest * 0.01);
    return [(first + found) * windowSeconds + windowSeconds / 2 - onset];
  });
}

/** Where sound begins after at least 0.2 s of silence, in seconds: 10 ms windows above a hundredth of the loudest one. */
export function startsAfterSilence(samples: Float32Array, sampleRate: number): readonly number[] {
  const size = Math.round(sampleRate / 100);
  const levels = Array.from({ length: Math.floor(samples.length / size) }, (_, n) =>
    Math.sqrt(samples.subarray(n * size, (n + 1) * size).reduce((sum, x) => sum + x * x, 0) / size),
  );
  const threshold = levels.reduce((a, b) => Math.max(a, b), 0) / 100;
  const starts: number[] = [];
  let silent = 20;
  levels.forEach((level, n) => {
    if (level < threshold) silent += 1;
    else {
      if (silent >= 20) starts.push(n / 100);
      silent = 0;
    }
  });
  return starts;
}
