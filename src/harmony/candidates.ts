import { hear, priceOf } from './hearing.js';
import type { Hearing, Price } from './hearing.js';
import { readingsOf } from './readings.js';
import type { Chord, Key } from './model.js';
import type { Heard } from './segments.js';

/** A chord with what it costs to hear it in a span. */
export interface Candidate {
  readonly chord: Chord;
  readonly price: Price;
}

interface Tried {
  readonly hearing: Hearing;
  /** Cheapest first. */
  readonly candidates: readonly Candidate[];
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
  const candidates = heard.lattice.chords
    .map(chord => ({ chord, price: priceOf(chord, hearing) }))
    .sort((a, b) => a.price.total - b.price.total);
  const tried = { hearing, candidates };
  if (known.size >= keptSpans) known.clear();
  known.set(place, tried);
  return tried;
}

/** Share of a chord's unusualness in the key that counts against a reading. */
const unusualnessWeight = 0.7;

/** Between two chords that fit, the one that the key makes more of is heard; chromatic chords are not held against a claim beyond that. */
export const unusualness = (of: Chord, inKey: Key | undefined): number =>
  inKey === undefined ? 0 : unusualnessWeight * Math.min(0.8, readingsOf(of, inKey)[0]?.cost ?? 0.8);

/** The candidate that is cheapest when its price is spread over `length` and its unusualness in the key is added. */
export function cheapest(
  candidates: readonly Candidate[],
  length: number,
  inKey: Key | undefined,
): { readonly candidate: Candidate; readonly value: number } | undefined {
  let best: { candidate: Candidate; value: number } | undefined;
  for (const candidate of candidates) {
    const bare = candidate.price.total / length;
    if (best !== undefined && bare >= best.value) break;
    const value = bare + unusualness(candidate.chord, inKey);
    if (best === undefined || value < best.value) best = { candidate, value };
  }
  return best;
}
