import type { Lattice } from './lattice.js';
import { longestStretch } from './lattice.js';
import { keyCost } from './key-path.js';
import type { Chord, Key } from './model.js';
import { readingsOf } from './readings.js';

/** How well stretches of a piece read in each key; positions of keys as in `keys`. */
export interface KeyFits {
  readonly keys: readonly Key[];
  /** The cheapest reading of a stretch of cuts in one key throughout, by key, for comparing keys. */
  readonly costs: (from: number, to: number) => Float64Array;
}

/** Stretches whose costs are kept: a claim about a key and the probes around it ask about the same bars. */
const keptStretches = 32;

/** Prepares the comparison of keys for a piece. */
export function keyFitsOf(lattice: Lattice, keys: readonly Key[]): KeyFits {
  const { edges, moments } = lattice;
  const K = keys.length;
  const outOf: number[][] = moments.map(() => []);
  edges.forEach((edge, at) => outOf[edge.from]?.push(at));
  const unusualness = new Map<number, Float64Array>();
  const unusualnessOf = (chord: number): Float64Array => {
    const before = unusualness.get(chord);
    if (before !== undefined) return before;
    const of = lattice.chords[chord] as Chord;
    const costs = Float64Array.from(keys, inKey => (readingsOf(of, inKey)[0]?.cost ?? 0) * keyCost.numeral);
    unusualness.set(chord, costs);
    return costs;
  };

  // Cheapest chain of edges inside [from, to); edges that reach over its borders count with the share that lies inside.
  const chain = (from: number, to: number): Float64Array => {
    const reach = new Float64Array((to - from + 1) * K).fill(Infinity);
    reach.fill(0, 0, K);
    for (let cut = Math.max(0, from - longestStretch); cut < to; cut++) {
      for (const at of outOf[cut] ?? []) {
        const edge = edges[at];
        if (edge === undefined || edge.to <= from) continue;
        const start = Math.max(edge.from, from);
        const end = Math.min(edge.to, to);
        const share = edge.cost * ((end - start) / (edge.to - edge.from));
        const before = (start - from) * K;
        const after = (end - from) * K;
        const unusual = unusualnessOf(edge.chord);
        for (let k = 0; k < K; k++) {
          const through = (reach[before + k] as number) + share + (unusual[k] as number);
          if (through < (reach[after + k] as number)) reach[after + k] = through;
        }
      }
    }
    return reach.slice((to - from) * K);
  };
  const known = new Map<string, Float64Array>();
  return {
    keys,
    costs: (from, to) => {
      const stretch = `${from} ${to}`;
      const costs = known.get(stretch) ?? chain(from, to);
      if (known.size >= keptStretches) known.clear();
      known.set(stretch, costs);
      return costs;
    },
  };
}
