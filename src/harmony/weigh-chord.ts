import { pitchClassOf } from '../score/index.js';
import type { PitchClass } from '../score/index.js';
import { heardIn } from './analyse.js';
import { cheapest, lengthOf, tryChords, unusualness } from './candidates.js';
import { chordQualities, qualityIntervals } from './chord.js';
import type { Hearing } from './hearing.js';
import type { ChordQuestion } from './judgement.js';
import type { Analysis, Chord, ChordQuality, Segment } from './model.js';
import { priceOf } from './price.js';
import type { Price } from './price.js';
import { segmentsBetween } from './segment-at.js';
import { ticksOf } from './sound.js';
import type { Tone } from './sound.js';
import { howLongStays } from './staying-bass.js';

/** A claimed chord weighed against every other over its span. */
export interface Weighed {
  readonly question: ChordQuestion;
  readonly chord: Chord;
  readonly hearing: Hearing;
  readonly price: Price;
  readonly best: Chord;
  /** How much dearer the claimed chord is than the best, over the length of the span. */
  readonly behind: number;
  readonly segments: readonly Segment[];
  /** Chord tones that never sound here nor in the harmony that the span is part of. */
  readonly missing: readonly number[];
}

const qualityFor = (tones: readonly PitchClass[]): ChordQuality =>
  chordQualities.find(name => {
    const intervals = qualityIntervals[name];
    return (
      intervals.length === tones.length &&
      intervals.every((interval, at) => (tones[at] ?? 0) - (tones[0] ?? 0) === interval)
    );
  }) ?? 'major';

/** The augmented sixths share their frame and differ in one tone, which decides between them. */
export const isAugmentedSixth = (of: Chord): boolean => of.quality.endsWith('augmented sixth');

/**
 * A pedal is set aside by nature: it keeps a quarter of its weight against a chord that does not hold it. Where another voice strikes its tone
 * too, the tone is no mere pedal.
 */
function withoutPedal(hearing: Hearing, pedal: Tone): Hearing {
  const isDoubled = hearing.tones.some(
    ({ pitchClass, midi, voice }) =>
      pitchClass === pedal.pitchClass && midi !== pedal.midi && voice !== pedal.voice,
  );
  if (isDoubled) return hearing;
  const foreign = [...hearing.foreign].map(
    ([tone, weight]) => [tone, tone === pedal.pitchClass ? weight / 4 : weight] as const,
  );
  return { ...hearing, foreign: new Map(foreign) };
}

/**
 * What it costs a claimed chord not to hold the bass that is struck where it begins, over the price of the tone itself (common practice: the ear
 * takes the harmony from its bass).
 */
const foreignFirstBass = 0.3;

/** Weighs the chord that is asked about. */
export function weigh(analysis: Analysis, question: ChordQuestion): Weighed {
  const heard = heardIn(analysis);
  const start = ticksOf(question.start, heard.sound.ticksPerWhole);
  const end = Math.max(start + 1, ticksOf(question.end, heard.sound.ticksPerWhole));
  const tried = tryChords(heard, start, end);
  const { hearing } = tried;
  const quality = qualityFor(question.tones);
  const root = question.tones[0] as PitchClass;
  const inversion = question.bass === undefined ? 0 : Math.max(0, question.tones.indexOf(question.bass));
  const chord: Chord = { root, quality, tones: question.tones, inversion };
  const segments = segmentsBetween(analysis, question.start, question.end);
  // A span that is part of a longer harmony of the same chord borrows the tones that sound elsewhere in it.
  const whole =
    segments.length === 1 && segments[0]?.chord.root === root && segments[0].chord.quality === quality
      ? segments[0]
      : undefined;
  const borrowed = new Set(
    (whole?.chordTones ?? []).flatMap(id => {
      const note = analysis.score.notes[id];
      return note === undefined ? [] : [pitchClassOf(note.pitch)];
    }),
  );
  const bass = hearing.basses?.first;
  const isForeignBass = bass !== undefined && !question.tones.includes(bass.pitchClass);
  const isPedal = isForeignBass && howLongStays(analysis, bass) === 'through changes';
  const plain = priceOf(chord, isPedal ? withoutPedal(hearing, bass) : hearing, borrowed);
  const beginsOnForeign = isForeignBass && !isPedal && bass.on >= start && plain.delayed.length === 0;
  const price = beginsOnForeign ? { ...plain, total: plain.total + foreignFirstBass } : plain;
  const inKey = question.key ?? segments[0]?.key;
  const own = price.total / lengthOf(hearing) + unusualness(chord, inKey);
  const other = cheapest(heard, tried, inKey);
  const better = other === undefined || other.value >= own - 1e-9 ? chord : other.chord;
  // An augmented sixth is named by its bass, not by the root of its thirds.
  const low = bass === undefined ? -1 : better.tones.indexOf(bass.pitchClass);
  const best = isAugmentedSixth(better) && low >= 0 ? { ...better, inversion: low } : better;
  return {
    question,
    chord,
    hearing,
    price,
    best,
    behind: Math.max(0, own - (other?.value ?? own)),
    segments,
    missing: price.missing,
  };
}
