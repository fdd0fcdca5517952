import { delayedBass } from './ground.js';
import type { Lattice } from './lattice.js';
import type { Chord } from './model.js';
import type { Sound, Tone } from './sound.js';

/** Stretch of one chord over one bass tone. */
export interface BassSpan {
  readonly from: number;
  readonly to: number;
  /** Index into the chord's tones. */
  readonly inversion: number;
}

/** A bass may climb this far (semitones) inside one chord and still be the bass; beyond it the upper parts begin. */
const climb = 5;

/**
 * The bass of a stretch at its start: the ground where it belongs to the chord, else the lowest chord tone of the first beat (a
 * foreign ground is a pedal or leans into the bass, and neither counts for the inversion), or what a suspended bass resolves to.
 */
function firstBass(
  sound: Sound,
  { moments, ground }: Lattice,
  from: number,
  to: number,
  of: Chord,
): Tone | undefined {
  const start = moments[from];
  const own = ground[from];
  if (start === undefined) return own;
  const delayed = delayedBass(sound, own, start.start, moments[to - 1]?.end ?? start.end);
  if (
    delayed !== undefined &&
    own !== undefined &&
    !of.tones.includes(own.pitchClass) &&
    of.tones.includes(delayed.pitchClass)
  )
    return delayed;
  let found = own !== undefined && of.tones.includes(own.pitchClass) ? own : undefined;
  for (let at = from; at < to; at++) {
    const moment = moments[at];
    if (moment === undefined || (moment.start >= start.start + start.beat && found !== undefined)) break;
    const lowest = moment.sounding
      .map(id => sound.tones[id])
      .find(tone => tone !== undefined && of.tones.includes(tone.pitchClass));
    if (lowest !== undefined && (found === undefined || lowest.midi < found.midi)) found = lowest;
  }
  return found;
}

/**
 * Cuts a chord where its bass moves to another chord tone and stays: on a beat, or deeper and for a beat's length off it. Figures of a
 * broken chord and after-beats do not count: the ground does not follow them.
 */
export function bassSpans(
  sound: Sound,
  lattice: Lattice,
  from: number,
  to: number,
  of: Chord,
): readonly BassSpan[] {
  const { moments, ground, staying } = lattice;
  const own = ground[from];
  // Over a foreign bass that stays the inversion is not figured (Hutchinson, Non-Chord Tones, pedal).
  if (own !== undefined && staying.has(own.index) && !of.tones.includes(own.pitchClass))
    return [{ from, to, inversion: 0 }];
  let bass = firstBass(sound, lattice, from, to, of);
  const inversionOf = (tone: Tone | undefined): number =>
    tone === undefined ? -1 : of.tones.indexOf(tone.pitchClass);
  const spans: BassSpan[] = [];
  let start = from;
  for (let at = from + 1; at < to && bass !== undefined; at++) {
    const moment = moments[at];
    const tone = ground[at];
    if (moment === undefined || tone === undefined || tone.on !== moment.start) continue;
    const inversion = inversionOf(tone);
    if (inversion < 0 || inversion === inversionOf(bass)) continue;
    const long = tone.off - tone.on >= moment.beat;
    const strong = moment.level <= 2;
    const inReach = tone.midi < bass.midi ? strong || long : tone.midi - bass.midi <= climb && strong && long;
    if (!inReach) continue;
    spans.push({ from: start, to: at, inversion: inversionOf(bass) });
    start = at;
    bass = tone;
  }
  spans.push({ from: start, to, inversion: Math.max(0, inversionOf(bass)) });
  return spans;
}
