/** Length of one window in seconds. */
const windowSeconds = 0.001;
/** How far around the expected moment an onset is looked for, in seconds. */
const around = 0.03;
/** An attack has begun where its amplitude reaches a fiftieth (-34 dB) of what it grows to within 30 ms. */
const attackShare = 0.02;

/**
 * How far notes start from where they should, in seconds, found in the sound alone: around each expected onset, the first window of 1 ms
 * whose greatest sample reaches a fiftieth of the greatest one. What sounds before must have died away.
 */
export function onsetErrors(
  samples: Float32Array,
  sampleRate: number,
  expected: readonly number[],
): readonly number[] {
  const size = Math.round(windowSeconds * sampleRate);
  const levelAt = (window: number): number => {
    let level = 0;
    for (let i = window * size; i < (window + 1) * size; i += 1)
      level = Math.max(level, Math.abs(samples[i] ?? 0));
    return level;
  };
  return expected.map(onset => {
    const first = Math.round((onset - around) / windowSeconds);
    const levels = Array.from({ length: Math.round((2 * around) / windowSeconds) }, (_, n) =>
      levelAt(first + n),
    );
    const greatest = Math.max(...levels);
    const found = levels.findIndex(level => level > greatest * attackShare);
    return (first + found) * windowSeconds - onset;
  });
}

/**
 * Notes in layers in which no note starts before the last one has died away, so that each onset can be found in the sound of its layer.
 * Notes that start together stay together.
 */
export function layersOf<T extends { readonly start: number; readonly end: number }>(
  notes: readonly T[],
  dyingAway: number,
): readonly (readonly T[])[] {
  const layers: { end: number; notes: T[] }[] = [];
  const groups = new Map<number, T[]>();
  for (const note of notes) groups.set(note.start, [...(groups.get(note.start) ?? []), note]);
  for (const [start, together] of [...groups].sort(([a], [b]) => a - b)) {
    let layer = layers.find(({ end }) => end + dyingAway < start);
    if (layer === undefined) layers.push((layer = { end: 0, notes: [] }));
    layer.notes.push(...together);
    layer.end = Math.max(...together.map(note => note.end));
  }
  return layers.map(layer => layer.notes);
}

/**
 * Where sound begins after at least 0.2 s of silence, in seconds: 10 ms windows above -50 dB of the loudest one. A word may begin with `th` or
 * `f`, which are the weakest sounds of speech, about 30 dB under the strongest (H. Fletcher, Speech and Hearing in Communication, 1953; from memory),
 * and they begin softly.
 */
export function startsAfterSilence(samples: Float32Array, sampleRate: number): readonly number[] {
  const size = Math.round(sampleRate / 100);
  const levels = Array.from({ length: Math.floor(samples.length / size) }, (_, n) =>
    Math.sqrt(samples.subarray(n * size, (n + 1) * size).reduce((sum, x) => sum + x * x, 0) / size),
  );
  const threshold = levels.reduce((a, b) => Math.max(a, b), 0) * 10 ** (-50 / 20);
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
