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
  /** What the step can be a sign of, see `Sign`. */
  readonly signs: Uint8Array;
}

/** 1 where a step can close in the key (V to the tonic), 2 where it can prepare a close (the tonic's six-four to V), else 0. */
export type Sign = 0 | 1 | 2;

type Read = readonly [reading: Reading, chord: Chord];

function signOf([from, fromChord]: Read, [to, toChord]: Read, { tonic }: Key): Sign {
  const isDominant = (reading: Reading): boolean => reading.name === 'V' && reading.target === undefined;
  if (isDominant(from) && toChord.root === tonic && (to.function === 'tonic' || toChord.quality === 'major'))
    return 1;
  return isDominant(to) && fromChord.root === tonic && fromChord.tones.length === 3 ? 2 : 0;
}

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
    const signs = new Uint8Array(keys.length);
    keys.forEach((inKey, k) => {
      const a = readings[from]?.[k] as Reading;
      const b = readings[to]?.[k] as Reading;
      const goal = chords[to] as Chord;
      costs[k] = progressionCost(a, b, chords[from] as Chord, goal, inKey);
      signs[k] = signOf([a, chords[from] as Chord], [b, goal], inKey);
    });
    const progression = { costs, signs };
    known.set(pair, progression);
    return progression;
  };
}
