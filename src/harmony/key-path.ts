import { pitchClass } from '../score/index.js';
import { signatureOf } from './key.js';
import type { Edge, Lattice } from './lattice.js';
import type { Key } from './model.js';
import { progressionsOf } from './progressions.js';
import type { Progression, Sign } from './progressions.js';
import type { PhraseEnd } from './phrase-ends.js';
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
  /** More where a phrase ends on it, and where the notation says so: a cadence is what confirms a key (Open Music Theory, Modulation). */
  phraseEnd: { none: 0, rests: 0.5, marked: 2 } satisfies Record<PhraseEnd, number>,
  /** What a cadential six-four speaks for the key: it belongs to no other (Hutchinson, Cadential Six-Four). */
  sixFour: 0.5,
  /** What it costs to hear another chord than the tonic on the first downbeat and at the very end: pieces set out from home and end there. */
  offTonic: { opening: 0.5, end: 0.5 },
  /** Weight of a chord's unusualness in its key. */
  numeral: 1,
} as const;

/** The cheapest joint path through harmonies and keys, and how far behind it everything else is. */
export interface KeyPath {
  readonly keys: readonly Key[];
  /** Cheapest whole reading of the piece that goes through an edge in a key, above the best. */
  readonly excess: (edge: number, key: number) => number;
  /** The best path: edges in order with their keys. */
  readonly path: readonly { readonly edge: number; readonly key: number }[];
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

/** The steps of the search with their costs; tables of edges by key are flat, `edge * keys.length + key`. */
interface Steps {
  readonly edges: readonly Edge[];
  readonly keys: readonly Key[];
  readonly cuts: number;
  readonly into: readonly (readonly number[])[];
  readonly outOf: readonly (readonly number[])[];
  /** Cost of each edge in each key by itself. */
  readonly own: Float64Array;
  /** Cost of changing from a key to another, `from * keys.length + to`. */
  readonly modulation: Float64Array;
  /** Cost of beginning in a key. */
  readonly start: Float64Array;
  readonly progression: (from: number, to: number) => Progression;
  /** What a step is worth where it closes in its key: both basses are roots and the second begins on a strong beat. */
  readonly closing: (from: Edge, to: Edge) => number;
  /** What a step is worth where it is six-four to V: over the same bass, on a beat no weaker than V's. */
  readonly preparing: (from: Edge, to: Edge) => number;
}

function stepsOf(lattice: Lattice, signatures: readonly number[], phraseEnds: readonly PhraseEnd[]): Steps {
  const signature = signatures[0] ?? 0;
  const keys = candidateKeys(lattice, signature);
  const { edges, chords, moments } = lattice;
  const K = keys.length;
  const used = new Set(edges.map(edge => edge.chord));
  const readings = chords.map((of, at) =>
    used.has(at) ? keys.map(inKey => readingsOf(of, inKey)[0] as Reading) : [],
  );
  const into: number[][] = Array.from({ length: moments.length + 1 }, () => []);
  const outOf: number[][] = Array.from({ length: moments.length + 1 }, () => []);
  edges.forEach((edge, at) => {
    into[edge.to]?.push(at);
    outOf[edge.from]?.push(at);
  });
  const downbeat = moments.findIndex(moment => moment.level === 0);
  const offTonic = ({ from, to }: Edge): number =>
    (from <= downbeat && downbeat < to ? keyCost.offTonic.opening : 0) +
    (to === moments.length ? keyCost.offTonic.end : 0);
  const own = new Float64Array(edges.length * K);
  edges.forEach((edge, at) => {
    const first = moments[edge.from];
    const beats =
      first === undefined ? 0 : ((moments[edge.to - 1]?.end ?? first.end) - first.start) / first.beat;
    const here = signatures[first?.bar ?? 0] ?? signature;
    const outside = offTonic(edge);
    keys.forEach((inKey, k) => {
      const away = Math.abs(signatureOf(inKey) - here) * beats * keyCost.perAccidentalAndBeat;
      const strange = keyCost.numeral * (readings[edge.chord]?.[k]?.cost ?? 0);
      own[at * K + k] = edge.cost + away + strange + (chords[edge.chord]?.root === inKey.tonic ? 0 : outside);
    });
  });
  const accidentals = keys.map(signatureOf);
  const strong = moments.map(moment => moment.level <= 1);
  const level = (at: number): number => moments[at]?.level ?? 4;
  return {
    edges,
    keys,
    cuts: moments.length,
    into,
    outOf,
    own,
    modulation: Float64Array.from({ length: K * K }, (_, at) => {
      const apart = Math.abs((accidentals[Math.floor(at / K)] ?? 0) - (accidentals[at % K] ?? 0));
      return keyCost.modulation + keyCost.perAccidental * apart;
    }),
    start: Float64Array.from(accidentals, own => keyCost.perAccidentalAtStart * Math.abs(own - signature)),
    progression: progressionsOf(chords, keys, readings),
    closing: (from, to) =>
      from.bassPart === 0 && to.bassPart === 0 && strong[to.from] === true
        ? keyCost.cadence + keyCost.phraseEnd[phraseEnds[to.from] ?? 'none']
        : 0,
    preparing: (from, to) =>
      from.bassPart === 2 && to.bassPart === 0 && level(from.from) <= level(to.from) ? keyCost.sixFour : 0,
  };
}

/** For each key the cheapest way to change into it at a cut and the key at the other end; -1 where there is none. */
function cheapestChange(
  best: Float64Array,
  offset: number,
  modulation: Float64Array,
  K: number,
): { readonly costs: Float64Array; readonly from: Int16Array } {
  const costs = new Float64Array(K).fill(Infinity);
  const from = new Int16Array(K).fill(-1);
  for (let other = 0; other < K; other++) {
    const soFar = best[offset + other] as number;
    if (soFar === Infinity) continue;
    for (let k = 0; k < K; k++) {
      const through = soFar + (modulation[other * K + k] as number);
      if (other !== k && through < (costs[k] as number)) {
        costs[k] = through;
        from[k] = other;
      }
    }
  }
  return { costs, from };
}

/** Cheapest way to the end of each edge in each key, and where it comes from. */
interface Forward {
  readonly costs: Float64Array;
  readonly edgeBefore: Int32Array;
  readonly keyBefore: Int16Array;
}

function searchForward(steps: Steps): Forward {
  const { edges, keys, cuts, into, outOf, own, modulation } = steps;
  const K = keys.length;
  const costs = new Float64Array(edges.length * K).fill(Infinity);
  const edgeBefore = new Int32Array(edges.length * K).fill(-1);
  const keyBefore = new Int16Array(edges.length * K);
  const nodeBest = new Float64Array((cuts + 1) * K).fill(Infinity);
  const nodeEdge = new Int32Array((cuts + 1) * K).fill(-1);
  const least = new Float64Array(K);
  for (let cut = 0; cut < cuts; cut++) {
    const change = cut === 0 ? undefined : cheapestChange(nodeBest, cut * K, modulation, K);
    for (const at of outOf[cut] ?? []) {
      const edge = edges[at] as Edge;
      const slot = at * K;
      least.set(change?.costs ?? steps.start);
      for (let k = 0; k < K; k++) {
        const other = change?.from[k] ?? -1;
        edgeBefore[slot + k] = other < 0 ? -1 : (nodeEdge[cut * K + other] as number);
        keyBefore[slot + k] = other < 0 ? k : other;
      }
      for (const p of into[cut] ?? []) {
        const before = edges[p] as Edge;
        const { costs: step, signs } = steps.progression(before.chord, edge.chord);
        const rewards = [0, steps.closing(before, edge), steps.preparing(before, edge)] as const;
        for (let k = 0; k < K; k++) {
          const through =
            (costs[p * K + k] as number) + ((step[k] as number) - (rewards[signs[k] as Sign] as number));
          if (through < (least[k] as number)) {
            least[k] = through;
            edgeBefore[slot + k] = p;
            keyBefore[slot + k] = k;
          }
        }
      }
      for (let k = 0; k < K; k++) {
        const value = (least[k] as number) + (own[slot + k] as number);
        costs[slot + k] = value;
        if (value < (nodeBest[edge.to * K + k] as number)) {
          nodeBest[edge.to * K + k] = value;
          nodeEdge[edge.to * K + k] = at;
        }
      }
    }
  }
  return { costs, edgeBefore, keyBefore };
}

/** Cheapest way from the end of each edge in each key to the end of the piece. */
function searchBackward(steps: Steps): Float64Array {
  const { edges, keys, cuts, into, outOf, own, modulation } = steps;
  const K = keys.length;
  const costs = new Float64Array(edges.length * K).fill(Infinity);
  const nodeAfter = new Float64Array((cuts + 1) * K).fill(Infinity);
  const least = new Float64Array(K);
  for (let cut = cuts; cut > 0; cut--) {
    // Changing key costs the same in both directions.
    const change = cut === cuts ? undefined : cheapestChange(nodeAfter, cut * K, modulation, K);
    for (const at of into[cut] ?? []) {
      const edge = edges[at] as Edge;
      if (change === undefined) least.fill(0);
      else least.set(change.costs);
      for (const n of outOf[cut] ?? []) {
        const after = edges[n] as Edge;
        const { costs: step, signs } = steps.progression(edge.chord, after.chord);
        const rewards = [0, steps.closing(edge, after), steps.preparing(edge, after)] as const;
        for (let k = 0; k < K; k++) {
          const through =
            (costs[n * K + k] as number) +
            (own[n * K + k] as number) +
            ((step[k] as number) - (rewards[signs[k] as Sign] as number));
          if (through < (least[k] as number)) least[k] = through;
        }
      }
      costs.set(least, at * K);
      for (let k = 0; k < K; k++) {
        const whole = (least[k] as number) + (own[at * K + k] as number);
        if (whole < (nodeAfter[edge.from * K + k] as number)) nodeAfter[edge.from * K + k] = whole;
      }
    }
  }
  return costs;
}

/** Finds the cheapest reading of the piece: which harmonies, in which keys. `signatures` are the fifths of each bar's key signature, `phraseEnds` go by moment. */
export function findKeyPath(
  lattice: Lattice,
  signatures: readonly number[],
  phraseEnds: readonly PhraseEnd[],
): KeyPath {
  const steps = stepsOf(lattice, signatures, phraseEnds);
  const { keys } = steps;
  const K = keys.length;
  const forward = searchForward(steps);
  const backward = searchBackward(steps);

  let best = Infinity;
  let last = -1;
  let lastKey = 0;
  for (const at of steps.into[steps.cuts] ?? []) {
    for (let k = 0; k < K; k++) {
      const value = forward.costs[at * K + k] ?? Infinity;
      if (value < best) {
        best = value;
        last = at;
        lastKey = k;
      }
    }
  }
  const path: { edge: number; key: number }[] = [];
  for (let at = last, k = lastKey; at >= 0;) {
    path.push({ edge: at, key: k });
    const slot = at * K + k;
    at = forward.edgeBefore[slot] ?? -1;
    k = forward.keyBefore[slot] ?? 0;
  }
  const { costs } = forward;
  return {
    keys,
    path: path.reverse(),
    excess: (edge, k) => (costs[edge * K + k] ?? Infinity) + (backward[edge * K + k] ?? Infinity) - best,
  };
}
