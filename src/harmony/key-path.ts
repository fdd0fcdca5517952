import { pitchClass } from '../score/index.js';
import { signatureOf } from './key.js';
import type { Edge, Lattice } from './lattice.js';
import type { Chord, Key } from './model.js';
import { readingsOf } from './readings.js';
import type { Reading } from './readings.js';

/** Costs of the joint path through keys and numerals, in the unit of `lattice.ts`. */
export const keyCost = {
  /** Leaving a key at all; a few applied chords are cheaper, a phrase of them is not (Open Music Theory, Modulation). */
  modulation: 1.5,
  /** Per accidental between the two signatures (closely related keys are the usual goals). */
  perAccidental: 0.22,
  /** Beginning in a key that is not the signature's, per accidental. */
  perAccidentalAtStart: 0.4,
  /** Staying in a key away from the signature, per beat and accidental: the signature is the composer's own word on the key. */
  perAccidentalAndBeat: 0.01,
  /** What an authentic cadence (both chords in root position, the tonic on a strong beat) speaks for the key it is in. */
  cadence: 0.5,
  /** Weight of a chord's unusualness in its key. */
  numeral: 1,
} as const;

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

/** Forward and backward costs of every edge in every key. */
export interface KeyPath {
  readonly keys: readonly Key[];
  /** Per edge and key (`edge * keys.length + key`): cheapest whole reading of the piece that goes through it, above the best. */
  readonly excess: (edge: number, key: number) => number;
  readonly best: number;
  /** The best path: edges in order with their keys. */
  readonly path: readonly { readonly edge: number; readonly key: number }[];
  /** The cheapest reading of a stretch of cuts in one key throughout, for comparing keys. */
  readonly inKey: (from: number, to: number, key: number) => number;
}

function candidateKeys(lattice: Lattice, signature: number): readonly Key[] {
  const used = new Set(lattice.chords.flatMap(chord => chord.tones));
  const keys: Key[] = [];
  for (let tonic = -12; tonic <= 14; tonic++) {
    if (!used.has(pitchClass(tonic))) continue;
    for (const mode of ['major', 'minor'] as const) {
      const candidate = { tonic: pitchClass(tonic), mode };
      if (Math.abs(signatureOf(candidate) - signature) <= 7) keys.push(candidate);
    }
  }
  return keys.length > 0 ? keys : [{ tonic: pitchClass(signature), mode: 'major' }];
}

/** No step between two harmonies is cheaper than this below zero; lets the search skip what cannot win. */
const greatestReward = 0.2 + keyCost.cadence;

/** For each key the cheapest way to change into it (or out of it) at a cut, and the key at the other end; -1 where there is none. */
function cheapestChange(
  best: Float64Array,
  offset: number,
  modulation: readonly (readonly number[])[],
  direction: 'into' | 'out of',
): { readonly costs: Float64Array; readonly from: Int16Array } {
  const K = modulation.length;
  const costs = new Float64Array(K).fill(Infinity);
  const from = new Int16Array(K).fill(-1);
  for (let k = 0; k < K; k++) {
    for (let other = 0; other < K; other++) {
      if (other === k) continue;
      const change = (direction === 'into' ? modulation[other]?.[k] : modulation[k]?.[other]) ?? 0;
      const through = (best[offset + other] as number) + change;
      if (through < (costs[k] as number)) {
        costs[k] = through;
        from[k] = other;
      }
    }
  }
  return { costs, from };
}

export function findKeyPath(lattice: Lattice, signatures: readonly number[]): KeyPath {
  const signature = signatures[0] ?? 0;
  const keys = candidateKeys(lattice, signature);
  const { edges, chords, moments } = lattice;
  const K = keys.length;
  const readings = chords.map(of => keys.map(inKey => readingsOf(of, inKey)[0] as Reading));
  const modulation = keys.map(a =>
    keys.map(b => {
      const apart = Math.abs(signatureOf(a) - signatureOf(b));
      return a === b ? 0 : keyCost.modulation + keyCost.perAccidental * apart;
    }),
  );
  const into: number[][] = Array.from({ length: moments.length + 1 }, () => []);
  const outOf: number[][] = Array.from({ length: moments.length + 1 }, () => []);
  edges.forEach((edge, at) => {
    into[edge.to]?.push(at);
    outOf[edge.from]?.push(at);
  });
  const own = new Float64Array(edges.length * K);
  edges.forEach((edge, at) => {
    const first = moments[edge.from];
    const beats =
      first === undefined ? 0 : ((moments[edge.to - 1]?.end ?? first.end) - first.start) / first.beat;
    const here = signatures[first?.bar ?? 0] ?? signature;
    keys.forEach((inKey, k) => {
      const away = Math.abs(signatureOf(inKey) - here) * beats * keyCost.perAccidentalAndBeat;
      own[at * K + k] = edge.cost + away + keyCost.numeral * (readings[edge.chord]?.[k]?.cost ?? 0);
    });
  });
  // Progression costs by pair of chords and key, each worked out once; NaN where it was not needed yet.
  const C = chords.length;
  const known = new Float32Array(C * C * K).fill(NaN);
  const closing = new Uint8Array(C * C * K);
  const learn = (a: number, b: number, k: number, slot: number): void => {
    const before = readings[a]?.[k] as Reading;
    const after = readings[b]?.[k] as Reading;
    const inKey = keys[k] as Key;
    known[slot] = progressionCost(before, after, chords[a] as Chord, chords[b] as Chord, inKey);
    const closes =
      before.name === 'V' &&
      before.target === undefined &&
      chords[b]?.root === inKey.tonic &&
      after.function === 'tonic';
    closing[slot] = closes ? 1 : 0;
  };
  const strong = moments.map(moment => moment.level <= 1);
  const step = (from: number, to: number, k: number): number => {
    const before = edges[from] as Edge;
    const after = edges[to] as Edge;
    const slot = (before.chord * C + after.chord) * K + k;
    let plain = known[slot] as number;
    if (plain !== plain) {
      learn(before.chord, after.chord, k, slot);
      plain = known[slot] as number;
    }
    return closing[slot] === 1 && before.rooted && after.rooted && strong[after.from] === true
      ? plain - keyCost.cadence
      : plain;
  };

  // Forward: cheapest way to the end of an edge, in a key. At each cut the cheapest way to change into a key is worked out once.
  const cuts = moments.length + 1;
  const forward = new Float64Array(edges.length * K).fill(Infinity);
  const cameFrom = new Int32Array(edges.length * K).fill(-1);
  const cameKey = new Int16Array(edges.length * K);
  const nodeBest = new Float64Array(cuts * K).fill(Infinity);
  const nodeEdge = new Int32Array(cuts * K).fill(-1);
  for (let cut = 0; cut < moments.length; cut++) {
    const { costs: change, from: changeFrom } = cheapestChange(nodeBest, cut * K, modulation, 'into');
    for (const at of outOf[cut] ?? []) {
      const to = (edges[at] as Edge).to;
      for (let k = 0; k < K; k++) {
        let least = change[k] as number;
        const otherKey = changeFrom[k] as number;
        let from = otherKey < 0 ? -1 : (nodeEdge[cut * K + otherKey] as number);
        let fromKey = otherKey < 0 ? k : otherKey;
        if (cut === 0)
          least = keyCost.perAccidentalAtStart * Math.abs(signatureOf(keys[k] as Key) - signature);
        for (const p of into[cut] as number[]) {
          const before = forward[p * K + k] as number;
          if (before - greatestReward >= least) continue;
          const through = before + step(p, at, k);
          if (through < least) {
            least = through;
            from = p;
            fromKey = k;
          }
        }
        const value = least + (own[at * K + k] as number);
        forward[at * K + k] = value;
        cameFrom[at * K + k] = from;
        cameKey[at * K + k] = fromKey;
        if (value < (nodeBest[to * K + k] as number)) {
          nodeBest[to * K + k] = value;
          nodeEdge[to * K + k] = at;
        }
      }
    }
  }

  // Backward: cheapest way from the end of an edge to the end of the piece.
  const backward = new Float64Array(edges.length * K).fill(Infinity);
  const nodeAfter = new Float64Array(cuts * K).fill(Infinity);
  for (let cut = moments.length; cut > 0; cut--) {
    const { costs: change } = cheapestChange(nodeAfter, cut * K, modulation, 'out of');
    for (const at of into[cut] ?? []) {
      const { from } = edges[at] as Edge;
      for (let k = 0; k < K; k++) {
        let least = cut === moments.length ? 0 : (change[k] as number);
        for (const n of outOf[cut] ?? []) {
          const after = (backward[n * K + k] as number) + (own[n * K + k] as number);
          if (after - greatestReward < least) least = Math.min(least, after + step(at, n, k));
        }
        backward[at * K + k] = least;
        const whole = least + (own[at * K + k] as number);
        if (whole < (nodeAfter[from * K + k] as number)) nodeAfter[from * K + k] = whole;
      }
    }
  }

  let best = Infinity;
  let last = -1;
  let lastKey = 0;
  for (const at of into[moments.length] ?? []) {
    for (let k = 0; k < K; k++) {
      const value = forward[at * K + k] ?? Infinity;
      if (value < best) {
        best = value;
        last = at;
        lastKey = k;
      }
    }
  }
  const path: { edge: number; key: number }[] = [];
  for (let at = last, k = lastKey; at >= 0;) {
    path.unshift({ edge: at, key: k });
    const slot = at * K + k;
    at = cameFrom[slot] ?? -1;
    k = cameKey[slot] ?? 0;
  }

  const inKey = (from: number, to: number, k: number): number => {
    // Cheapest chain of edges inside [from, to); edges that reach over its borders count with the share that lies inside.
    const reach = new Float64Array(to - from + 1).fill(Infinity);
    reach[0] = 0;
    for (let cut = Math.max(0, from - 64); cut < to; cut++) {
      for (const at of outOf[cut] ?? []) {
        const edge = edges[at];
        if (edge === undefined || edge.to <= from) continue;
        const start = Math.max(edge.from, from);
        const end = Math.min(edge.to, to);
        const share = (end - start) / (edge.to - edge.from);
        const through =
          (reach[start - from] ?? Infinity) +
          edge.cost * share +
          (readings[edge.chord]?.[k]?.cost ?? 0) * keyCost.numeral;
        if (through < (reach[end - from] ?? Infinity)) reach[end - from] = through;
      }
    }
    return reach[to - from] ?? Infinity;
  };
  return {
    keys,
    best,
    path,
    excess: (edge, k) => (forward[edge * K + k] ?? Infinity) + (backward[edge * K + k] ?? Infinity) - best,
    inKey,
  };
}
