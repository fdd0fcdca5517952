import type { PlayStyle } from '../lesson/index.js';
import type { Analysis } from '../harmony/index.js';
import { chromaOf, compare, greatest, isBefore, least, midiOf, spell } from '../score/index.js';
import type { Fraction, Pitch, PitchClass, Score } from '../score/index.js';
import type { PassageNote } from './written-notes.js';

/** One harmony of a bar, as the demonstrations need it. */
export interface HeardChord {
  readonly start: Fraction;
  readonly end: Fraction;
  /** Spelled tones stacked in thirds, root first. */
  readonly tones: readonly PitchClass[];
  readonly bass: PitchClass;
}

/** The harmonies of a written span, in order. */
export type ChordsIn = (score: Score, start: Fraction, end: Fraction) => readonly HeardChord[];

/** The chords of an analysis: what the harmony engine found. Another version of the piece has an analysis of its own. */
export const chordsOfAnalysis =
  (analysisOf: (score: Score) => Analysis | undefined): ChordsIn =>
  (score, start, end) =>
    (analysisOf(score)?.segments ?? [])
      .filter(segment => isBefore(segment.start, end) && isBefore(start, segment.end))
      .map(segment => ({
        start: greatest(segment.start, start),
        end: least(segment.end, end),
        tones: segment.chord.tones,
        bass: segment.bass,
      }));

/** A demonstration of one chord in seconds from its own start. */
export interface Demonstration {
  readonly seconds: number;
  readonly notes: readonly PassageNote[];
}

/** Seconds from one tone to the next. Common practice: 0.35 s to 0.6 s where the tones are not named aloud. */
const toneSeconds = 0.5;
/** How long the complete chord is held. Common practice: a piano chord is useful for 4 s to 6 s. */
const chordSeconds = 2;
/** When a chord that is held under speech is struck again. Common practice: before it has died away, 4 s to 6 s. */
const strikeAgainSeconds = 5;
const velocity = 76;
/** Lowest key of a demonstration: the octave below middle C, where thirds are still clear. */
const lowestRoot = 48;

/** The lowest key of a pitch class at or above `floor`, as a spelled pitch. */
function pitchAtOrAbove(tone: PitchClass, floor: number): Pitch {
  const { letter, alter } = spell(tone);
  const octave = Math.floor((floor - midiOf({ letter, alter, octave: -1 }) + 11) / 12) - 1;
  return { letter, alter, octave };
}

/** Keys upward from the first tone, each one the next of its kind above the one before. */
function upward(tones: readonly PitchClass[]): readonly number[] {
  const keys: number[] = [];
  for (const tone of tones) keys.push(midiOf(pitchAtOrAbove(tone, (keys.at(-1) ?? lowestRoot - 1) + 1)));
  return keys;
}

/** Keys of the chord stacked in thirds on its root. */
export const stackedKeys = (chord: HeardChord): readonly number[] => upward(chord.tones);

/** Keys of the chord in close position over the bass that it has in the score. */
export function closeKeys(chord: HeardChord): readonly number[] {
  const bass = chromaOf(chord.bass);
  const above = (tone: PitchClass) => (chromaOf(tone) - bass + 12) % 12;
  const upper = chord.tones.filter(tone => chromaOf(tone) !== bass).sort((a, b) => above(a) - above(b));
  return upward([chord.bass, ...upper]);
}

const strike = (midi: number, start: number, end: number): PassageNote => ({
  start,
  end,
  midi,
  velocity,
  voice: demonstrationVoice,
  notes: [],
});

/** Voice id of sounds that are not in the score. */
export const demonstrationVoice = 'demonstration';

/** Keys one after another, each one held, then the whole chord struck together. */
function built(keys: readonly number[], unit: number): Demonstration {
  const together = keys.length * unit;
  const single = keys.map((midi, index) => strike(midi, index * unit, together));
  const chord = keys.map(midi => strike(midi, together, together + chordSeconds));
  return { seconds: together + chordSeconds, notes: [...single, ...chord] };
}

/** Keys one after another, all held to the end. */
function broken(keys: readonly number[], unit: number): Demonstration {
  const end = (keys.length - 1) * unit + chordSeconds;
  return { seconds: end, notes: keys.map((midi, index) => strike(midi, index * unit, end)) };
}

/** Keys together, struck again as long as the demonstration must last. */
function held(keys: readonly number[], seconds: number): Demonstration {
  const strikes = Math.max(1, Math.ceil(seconds / strikeAgainSeconds));
  const each = seconds / strikes;
  const notes = Array.from({ length: strikes }, (_, n) =>
    keys.map(midi => strike(midi, n * each, (n + 1) * each)),
  );
  return { seconds, notes: notes.flat() };
}

/**
 * A chord as the ear is shown it: `stack` builds the tones in thirds from the root and then strikes them together, `arpeggio` breaks
 * the chord upward from its bass, `block` strikes it in close position over its bass. `percent` is the tempo; `atLeast` seconds is
 * how long a block must last because words are spoken over it.
 */
export function demonstrate(
  chord: HeardChord,
  as: Exclude<PlayStyle, 'written'>,
  percent: number,
  atLeast = 0,
): Demonstration {
  const unit = (toneSeconds * 100) / percent;
  switch (as) {
    case 'stack':
      return built(stackedKeys(chord), unit);
    case 'arpeggio':
      return broken(closeKeys(chord), unit);
    case 'block':
      return held(closeKeys(chord), Math.max((chordSeconds * 100) / percent, atLeast));
  }
}

/** Chords of a span in order, equal neighbours joined. */
export function distinctChords(chords: readonly HeardChord[]): readonly HeardChord[] {
  const same = (a: HeardChord, b: HeardChord) =>
    a.bass === b.bass &&
    a.tones.length === b.tones.length &&
    a.tones.every((tone, index) => tone === b.tones[index]);
  const joined: HeardChord[] = [];
  for (const chord of chords.toSorted((a, b) => compare(a.start, b.start))) {
    const before = joined.at(-1);
    if (before !== undefined && same(before, chord))
      joined[joined.length - 1] = { ...before, end: chord.end };
    else joined.push(chord);
  }
  return joined;
}
