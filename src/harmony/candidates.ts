import { hear } from './hearing.js';
import type { Hearing } from './hearing.js';
import { priceAll } from './price.js';
import { readingsOf } from './readings.js';
import type { Chord, Key } from './model.js';
import type { Heard } from './segments.js';

interface Cheapest {
  readonly chord: Chord;
  readonly value: number;
}

interface Tried {
  readonly hearing: Hearing;
  /** What it costs to hear each chord of the lattice here. */
  readonly totals: Float64Array;
  /** The answers of `cheapest`, by key. */
  readonly cheapestIn: Map<string, Cheapest | undefined>;
}

/** Spans kept at a time; a lesson's claims and their probes stay near each other, and memory stays small over a catalogue. */
const keptSpans = 200;

/** Spans that were tried already: the claims of a lesson, and the probes around them, ask about the same places again and again. */
const triedBy = new WeakMap<Heard, Map<string, Tried>>();

/** What sounds from `start` to `end` (ticks), with every chord of the piece priced against it. */
export function tryChords(heard: Heard, start: number, end: number): Tried {
  const known = triedBy.get(heard) ?? new Map<string, Tried>();
  triedBy.set(heard, known);
  const place = `${start} ${end}`;
  const before = known.get(place);
  if (before !== undefined) return before;
  const hearing = hear(heard.sound, heard.lattice, start, end);
  const tried = { hearing, totals: priceAll(heard.lattice.tables, hearing), cheapestIn: new Map() };
  if (known.size >= keptSpans) known.clear();
  known.set(place, tried);
  return tried;
}

/** Share of a chord's unusualness in the key that counts against a reading. */
const unusualnessWeight = 0.7;

/** Between two chords that fit, the one that the key makes more of is heard; chromatic chords are not held against a claim beyond that. */
export const unusualness = (of: Chord, inKey: Key | undefined): number =>
  inKey === undefined ? 0 : unusualnessWeight * Math.min(0.8, readingsOf(of, inKey)[0]?.cost ?? 0.8);

/** Unusualness of every chord of a piece, by the name of the key. */
const unusualBy = new WeakMap<Heard, Map<string, Float64Array>>();

function unusualnessIn(heard: Heard, inKey: Key | undefined, name: string): Float64Array {
  const known = unusualBy.get(heard) ?? new Map<string, Float64Array>();
  unusualBy.set(heard, known);
  const costs = known.get(name) ?? Float64Array.from(heard.lattice.chords, of => unusualness(of, inKey));
  known.set(name, costs);
  return costs;
}

/** The chord that is cheapest when its price is spread over the span's length and its unusualness in the key is added. */
export function cheapest(heard: Heard, tried: Tried, inKey: Key | undefined): Cheapest | undefined {
  const name = inKey === undefined ? '' : `${inKey.tonic} ${inKey.mode}`;
  if (tried.cheapestIn.has(name)) return tried.cheapestIn.get(name);
  const { totals } = tried;
  const unusual = unusualnessIn(heard, inKey, name);
  const length = lengthOf(tried.hearing);
  let best = -1;
  let least = Infinity;
  for (let at = 0; at < totals.length; at++) {
    const total = totals[at] as number;
    const value = total / length + (unusual[at] as number);
    if (value < least || (value === least && total < (totals[best] ?? Infinity))) {
      best = at;
      least = value;
    }
  }
  const chord = heard.lattice.chords[best];
  const answer = chord === undefined ? undefined : { chord, value: least };
  tried.cheapestIn.set(name, answer);
  return answer;
}

/** What a price is spread over: pairs of beats, since a long span may hold more foreign tones than a short one. */
export const lengthOf = (hearing: Hearing): number => Math.max(1, hearing.beats / 2);
