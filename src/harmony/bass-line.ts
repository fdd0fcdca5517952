import type { Chord } from './model.js';
import type { Moment } from './moments.js';
import type { Sound, Tone } from './sound.js';

/** Stretch of one chord over one bass tone. */
export interface BassSpan {
  readonly from: number;
  readonly to: number;
  /** Index into the chord's tones. */
  readonly inversion: number;
  /** True where a foreign tone sounds below the chord throughout: a pedal, which hides the inversion. */
  readonly hidden: boolean;
}

/** A bass may climb this far inside one chord and still be the bass; beyond it the upper parts begin. */
const climb = 5;

const lowestTone = (sound: Sound, moment: Moment | undefined): Tone | undefined =>
  sound.tones[moment?.sounding[0] ?? -1];

/** Whether a tone's voice strikes other tones with it: an after-beat chord rather than a bass note. */
function isChordal(sound: Sound, moment: Moment, tone: Tone): boolean {
  return moment.struck.some(id => id !== tone.index && sound.tones[id]?.voice === tone.voice);
}

interface Bass {
  readonly midi: number;
  readonly inversion: number;
  readonly chordal: boolean;
}

/** The first bass of a stretch: the lowest chord tone of its first beat, since broken chords begin with their lowest tone. */
function firstBass(
  sound: Sound,
  moments: readonly Moment[],
  from: number,
  to: number,
  of: Chord,
): Bass | undefined {
  const start = moments[from];
  if (start === undefined) return undefined;
  let found: Bass | undefined;
  for (let at = from; at < to; at++) {
    const moment = moments[at];
    if (moment === undefined || (moment.start >= start.start + start.beat && found !== undefined)) break;
    for (const id of moment.sounding) {
      const tone = sound.tones[id];
      const inversion = tone === undefined ? -1 : of.tones.indexOf(tone.pitchClass);
      if (tone === undefined || inversion < 0) continue;
      if (found === undefined || tone.midi < found.midi)
        found = { midi: tone.midi, inversion, chordal: isChordal(sound, moment, tone) };
      break;
    }
  }
  return found;
}

/**
 * Cuts a chord where its bass moves to another chord tone and stays: on a beat, or off it for a beat's length, alone in its
 * voice, not above the reach of a bass. Figures of a broken chord and after-beats do not count.
 */
export function bassSpans(
  sound: Sound,
  moments: readonly Moment[],
  from: number,
  to: number,
  of: Chord,
): readonly BassSpan[] {
  let bass = firstBass(sound, moments, from, to, of);
  const hidden = (a: number, b: number): boolean => {
    for (let at = a; at < b; at++) {
      const tone = lowestTone(sound, moments[at]);
      if (tone !== undefined && of.tones.includes(tone.pitchClass)) return false;
    }
    return bass !== undefined;
  };
  const spans: BassSpan[] = [];
  let start = from;
  for (let at = from + 1; at < to && bass !== undefined; at++) {
    const moment = moments[at];
    const tone = lowestTone(sound, moment);
    if (moment === undefined || tone === undefined || tone.on !== moment.start) continue;
    const inversion = of.tones.indexOf(tone.pitchClass);
    if (inversion < 0 || inversion === bass.inversion) continue;
    const chordal = isChordal(sound, moment, tone);
    const long = tone.off - tone.on >= moment.beat;
    const strong = moment.level <= 2;
    const inReach =
      tone.midi < bass.midi
        ? strong || long
        : tone.midi - bass.midi <= climb && strong && long && (!chordal || bass.chordal);
    if (!inReach) continue;
    spans.push({ from: start, to: at, inversion: bass.inversion, hidden: hidden(start, at) });
    start = at;
    bass = { midi: tone.midi, inversion, chordal };
  }
  spans.push({ from: start, to, inversion: bass?.inversion ?? 0, hidden: hidden(start, to) });
  return spans;
}
