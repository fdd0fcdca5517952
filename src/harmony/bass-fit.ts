import { compare, printPitchClass } from '../score/index.js';
import type { PitchClass } from '../score/index.js';
import { heardIn } from './analyse.js';
import { bassOf } from './chord.js';
import { momentAt } from './hearing.js';
import type { ChordQuestion } from './judgement.js';
import type { Analysis, Chord } from './model.js';
import { segmentAt } from './segment-at.js';
import { ticksOf } from './sound.js';
import type { Tone } from './sound.js';
import { howLongStays } from './staying-bass.js';
import type { Weighed } from './weigh-chord.js';

/** The deepest tone struck earlier in the bar: it may still be the bass of what is played above it. */
function deepestBefore(analysis: Analysis, question: ChordQuestion): Tone | undefined {
  const { sound, lattice } = heardIn(analysis);
  let deepest: Tone | undefined;
  let at = momentAt(lattice.moments, ticksOf(question.start, sound.ticksPerWhole));
  for (let level = lattice.moments[at]?.level; at > 0 && level !== 0; level = lattice.moments[at]?.level) {
    at--;
    const tone = sound.tones[lattice.moments[at]?.sounding[0] ?? -1];
    if (tone !== undefined && (deepest === undefined || tone.midi < deepest.midi)) deepest = tone;
  }
  return deepest;
}

/** Whether the claimed bass fits, and the tone that lies lowest instead. */
export interface BassAnswer {
  /**
   * `unfigured`: over a foreign pedal, where the plain numeral is right though its root is not the bass. `foreign`: over a bass of another chord,
   * which refuses the inversion only where other tones speak against the chord too.
   */
  readonly fits:
    'yes' | 'unfigured' | 'leaning' | 'figure' | 'no' | 'foreign' | 'pedal' | 'earlier' | 'unheard';
  readonly lowest: Tone | undefined;
  /** With `figure`: the bass that the harmony began on. */
  readonly began?: PitchClass;
}

/** At a moment within a harmony of the claimed chord: the bass that the harmony began on. After-beats and the rest of a figure do not invert it. */
function figuredBass(
  analysis: Analysis,
  { start, end }: ChordQuestion,
  { root, quality }: Chord,
): PitchClass | undefined {
  const segment = segmentAt(analysis, start);
  const isWithin = compare(start, end) === 0 && segment !== undefined && compare(segment.start, start) < 0;
  return isWithin && segment.chord.root === root && segment.chord.quality === quality
    ? bassOf(segment.chord)
    : undefined;
}

/**
 * Does the claimed bass lie lowest? The first or the lowest tone of the span decides (broken chords begin with their bass or reach down
 * to it), or the bass that after-beats leave ringing. A bass tone that is foreign to the chord, or that stays while the harmony changes, is
 * a pedal and hides the inversion (Hutchinson, Non-Chord Tones: the pedal is not counted for the inversion). A single line has no bass.
 * `onGround`: the bass that a broken chord leaves ringing counts alone, as for a span that begins in the middle of its figure.
 */
export function askBass(
  analysis: Analysis,
  { question, hearing, chord }: Weighed,
  onGround = false,
): BassAnswer {
  const { basses } = hearing;
  if (question.bass === undefined || basses === undefined) return { fits: 'yes', lowest: basses?.lowest };
  const { first, lowest, longest, ground } = basses;
  const figured = figuredBass(analysis, question, chord);
  if (figured !== undefined && lowest.pitchClass !== figured) {
    if (question.bass === figured) return { fits: 'yes', lowest };
    if (question.bass === lowest.pitchClass) return { fits: 'figure', lowest, began: figured };
  }
  const deeper = deepestBefore(analysis, question);
  if (onGround && ground.midi < lowest.midi && chord.tones.includes(ground.pitchClass))
    return { fits: ground.pitchClass === question.bass ? 'yes' : 'no', lowest: ground };
  if ([first, lowest, ground].some(tone => tone.pitchClass === question.bass)) return { fits: 'yes', lowest };
  if (longest.pitchClass === question.bass && hearing.beats >= 2) return { fits: 'yes', lowest };
  const above = hearing.tones
    .filter(tone => chord.tones.includes(tone.pitchClass) && tone.pitchClass !== first.pitchClass)
    .reduce<Tone | undefined>(
      (low, tone) => (low === undefined || tone.midi < low.midi ? tone : low),
      undefined,
    );
  const foreignBass = !chord.tones.includes(first.pitchClass);
  if (foreignBass && above?.pitchClass === question.bass) return { fits: 'yes', lowest: first };
  const goal = first.next === undefined ? undefined : heardIn(analysis).sound.tones[first.next];
  if (foreignBass && first.departure.startsWith('step') && goal?.pitchClass === question.bass)
    return { fits: 'leaning', lowest: first };
  if (hearing.mostAtOnce < 2) return { fits: 'unheard', lowest: first };
  if (howLongStays(analysis, first) !== 'no') {
    // Over a foreign pedal the inversion is not figured, so the plain numeral is right.
    if (foreignBass && question.bass === chord.root) return { fits: 'unfigured', lowest: first };
    if (foreignBass || (above?.pitchClass === question.bass && first.pitchClass !== chord.root))
      return { fits: 'pedal', lowest: first };
  }
  if (deeper !== undefined && deeper.midi < lowest.midi && deeper.pitchClass === question.bass)
    return { fits: 'earlier', lowest: first };
  if (!foreignBass) return { fits: 'no', lowest: first };
  return { fits: hearing.present.has(question.bass) ? 'foreign' : 'unheard', lowest: first };
}

/** Why the bass leaves a claimed inversion arguable; `undefined` where it decides or fits. */
export function doubtOfBass(
  question: ChordQuestion,
  { fits, lowest, began }: BassAnswer,
): string | undefined {
  if (question.bass === undefined || lowest === undefined) return undefined;
  const claimed = printPitchClass(question.bass);
  const low = printPitchClass(lowest.pitchClass);
  if (fits === 'pedal')
    return `${low} sounds below it through more than one harmony; heard as a pedal it leaves ${claimed} as the bass, heard as the bass it does not`;
  if (fits === 'figure' && began !== undefined)
    return `${claimed} is the lowest tone at this moment, but ${printPitchClass(began)} began the harmony below it`;
  if (fits === 'foreign')
    return `${low} in the bass is foreign to the chord: set aside, it leaves the bass open`;
  if (fits === 'leaning')
    return `${low} in the bass moves on to ${claimed}: heard as leaning on it, it leaves ${claimed} as the bass`;
  if (fits === 'earlier')
    return `${claimed} was struck deeper earlier in the bar; whether it is still heard as the bass here is a matter of hearing`;
  return undefined;
}
