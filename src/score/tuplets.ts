import { fraction, one, type Fraction } from './fraction.js';
import { isCompound } from './meter.js';
import type { Meter } from './model.js';
import type { TupletMark } from './note-heads.js';
import { strayTuplet } from './reading-findings.js';
import type { VoiceState } from './voice-state.js';

/** The time that p notes take where the source names none (ABC 2.1, section 4.13, table). */
function defaultTupletTime(p: number, meter: Meter): number {
  if (p === 3 || p === 6) return 2;
  if (p === 2 || p === 4 || p === 8) return 3;
  return isCompound(meter) ? 3 : 2;
}

/** Begins a tuplet at the next note. */
export function startTuplet(state: VoiceState, mark: TupletMark): void {
  const { p, q, r } = mark;
  if (p < 2 || Math.max(p, q, r) > 99) state.report(strayTuplet(state.source, mark));
  else {
    const factor = fraction(q === 0 ? defaultTupletTime(p, state.meter) : q, p);
    state.tuplet = { factor, left: r === 0 ? p : r };
  }
}

/** The factor of the tuplet that the next note stands in. */
export function tupletFactor(state: VoiceState): Fraction {
  const { tuplet } = state;
  if (tuplet === undefined) return one;
  tuplet.left -= 1;
  if (tuplet.left === 0) state.tuplet = undefined;
  return tuplet.factor;
}
