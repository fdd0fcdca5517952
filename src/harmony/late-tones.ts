import { chord } from './chord.js';
import type { Chord, ChordQuality } from './model.js';
import type { Lattice } from './lattice.js';
import type { Moment } from './moments.js';
import type { Sound } from './sound.js';

/** The triad that a seventh chord is until its seventh sounds. */
const triadOf: Partial<Record<ChordQuality, ChordQuality>> = {
  'dominant seventh': 'major',
  'major seventh': 'major',
  'minor seventh': 'minor',
  'half-diminished seventh': 'diminished',
  'diminished seventh': 'diminished',
};

const sevenths = Object.keys(triadOf) as readonly ChordQuality[];

/** One chord over moments `from` to `to`. */
export interface ChordSpan {
  readonly from: number;
  readonly to: number;
  readonly chord: Chord;
}

/**
 * Whether a tone that enters at a moment belongs to a broken chord: its voice has spelled two or more other members of the chord since `from`
 * (ticks), in single notes shorter than a beat, and goes on with this one.
 */
function isInFigure(
  { tones }: Sound,
  { sounding, start, beat }: Moment,
  of: Chord,
  from: number,
  pitchClass: number,
): boolean {
  const entering = sounding
    .map(id => tones[id])
    .find(tone => tone?.pitchClass === pitchClass && tone.on === start);
  if (entering === undefined) return false;
  const before = tones.filter(({ voice, on }) => voice === entering.voice && on >= from && on < start);
  return (
    [...before, entering].every(({ on, off }) => off - on < beat) &&
    before.every(tone => of.tones.includes(tone.pitchClass)) &&
    new Set(before.map(tone => tone.pitchClass)).size >= 2
  );
}

/**
 * A seventh that enters a beat or more after its chord makes the chord a triad until then (V becoming V7). The seventh of a broken chord is not
 * late: the figure spells one harmony.
 */
export function splitLateSeventh(
  sound: Sound,
  moments: readonly Moment[],
  span: ChordSpan,
): readonly ChordSpan[] {
  const triad = triadOf[span.chord.quality];
  const seventh = span.chord.tones[3];
  const start = moments[span.from];
  if (triad === undefined || seventh === undefined || start === undefined) return [span];
  const has = (at: number, tone: number): boolean =>
    moments[at]?.sounding.some(id => sound.tones[id]?.pitchClass === tone) ?? false;
  let entry = span.from;
  while (entry < span.to && !has(entry, seventh)) entry++;
  const moment = moments[entry];
  if (moment === undefined || entry >= span.to || entry === span.from) return [span];
  if (moment.start - start.start < start.beat || moment.level > 2) return [span];
  if (isInFigure(sound, moment, span.chord, start.start, seventh)) return [span];
  // A bass note alone, or with the melody, is not yet a chord: the figure goes on to spell it.
  const triadSounds = span.chord.tones.slice(0, 3).every(tone => {
    for (let at = span.from; at < entry; at++) if (has(at, tone)) return true;
    return false;
  });
  if (!triadSounds) return [span];
  return [
    { from: span.from, to: entry, chord: chord(span.chord.root, triad) },
    { from: entry, to: span.to, chord: span.chord },
  ];
}

/** Semitones within which a tone of a figure has moved to another rather than made room for it. */
const stepInFigure = 2;

/**
 * The seventh chord that a triad makes with the harmony after it, where that is only the rest of one broken chord: over the bass that sounds on, off
 * the strong beats, the figure goes on to the seventh, and no tone of the triad has moved there by step (that would be 5-6 over a bass).
 */
export function withSeventhOfFigure(
  sound: Sound,
  { moments, ground }: Pick<Lattice, 'moments' | 'ground'>,
  triad: ChordSpan,
  rest: ChordSpan,
): Chord | undefined {
  const [start, moment, bass] = [moments[triad.from], moments[rest.from], ground[triad.from]];
  if (start === undefined || moment === undefined || bass === undefined) return undefined;
  if (moment.level < 2 || ground[rest.from] !== bass) return undefined;
  const whole = sevenths
    .filter(quality => triadOf[quality] === triad.chord.quality)
    .map(quality => chord(triad.chord.root, quality))
    .find(({ tones }) => rest.chord.tones.every(tone => tones.includes(tone)));
  const seventh = whole?.tones[3];
  const entering = moment.sounding.map(id => sound.tones[id]).find(tone => tone?.pitchClass === seventh);
  if (whole === undefined || seventh === undefined || entering === undefined) return undefined;
  const hasMoved = sound.tones.some(
    ({ on, voice, midi }) =>
      on >= start.start &&
      on < moment.start &&
      voice === entering.voice &&
      midi !== entering.midi &&
      Math.abs(midi - entering.midi) <= stepInFigure,
  );
  return !hasMoved && isInFigure(sound, moment, whole, start.start, seventh) ? whole : undefined;
}
