import type { Chord, Key } from './model.js';
import type { Reading } from './readings.js';

/** What it costs that one numeral follows another in the same key (harmonic functions: Open Music Theory, T - PD - D - T). */
export function progressionCost(
  from: Reading,
  to: Reading,
  fromChord: Chord,
  toChord: Chord,
  inKey: Key,
): number {
  if (fromChord.root === toChord.root && fromChord.quality === toChord.quality) return 0;
  if (from.targetRoot !== undefined) {
    const goal = inKey.tonic + from.targetRoot;
    if (toChord.root === goal) return -0.1;
    if (to.targetRoot === from.targetRoot) return 0.05;
    // A chain of applied chords, or the deceptive step up from the goal's dominant.
    if (toChord.root === fromChord.root - 1) return 0.1;
    return toChord.tones.some(tone => tone === goal) ? 0.2 : 0.4;
  }
  if (to.targetRoot !== undefined) return 0.1;
  switch (from.function) {
    case 'dominant':
      if (to.function === 'tonic') return toChord.root === inKey.tonic ? -0.2 : 0.15;
      return to.function === 'dominant' ? 0.05 : 0.45;
    case 'predominant':
      return to.function === 'dominant' ? -0.05 : to.function === 'tonic' ? 0.15 : 0.05;
    case 'tonic':
      return 0.05;
  }
}

/** The step from one harmony to the next in every key. */
export interface Progression {
  readonly costs: Float32Array;
  /** 1 where it closes in the key: V to the tonic. */
  readonly closes: Uint8Array;
}

const closesIn = (from: Reading, to: Reading, toChord: Chord, inKey: Key): boolean =>
  from.name === 'V' && from.target === undefined && toChord.root === inKey.tonic && to.function === 'tonic';

/**
 * The steps between any two of the chords, each pair worked out once when it is first asked for: few of all pairs ever stand side by side.
 * `readings` by chord and key.
 */
export function progressionsOf(
  chords: readonly Chord[],
  keys: readonly Key[],
  readings: readonly (readonly Reading[])[],
): (from: number, to: number) => Progression {
  const known = new Map<number, Progression>();
  return (from, to) => {
    const pair = from * chords.length + to;
    const before = known.get(pair);
    if (before !== undefined) return before;
    const costs = new Float32Array(keys.length);
    const closes = new Uint8Array(keys.length);
    keys.forEach((inKey, k) => {
      const a = readings[from]?.[k] as Reading;
      const b = readings[to]?.[k] as Reading;
      const goal = chords[to] as Chord;
      costs[k] = progressionCost(a, b, chords[from] as Chord, goal, inKey);
      closes[k] = closesIn(a, b, goal, inKey) ? 1 : 0;
    });
    const progression = { costs, closes };
    known.set(pair, progression);
    return progression;
  };
}
