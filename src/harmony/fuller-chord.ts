import { transposed } from '../score/index.js';
import type { PitchClass } from '../score/index.js';
import { heardIn } from './analyse.js';
import { chord as chordOn } from './chord.js';
import { nativeTones } from './key.js';
import type { Analysis, Chord, ChordQuality } from './model.js';
import { ticksOf } from './sound.js';
import type { Tone } from './sound.js';
import { howLongStays } from './staying-bass.js';
import { isAugmentedSixth } from './weigh-chord.js';
import type { Weighed } from './weigh-chord.js';

/** A chord of four tones that holds all of the claimed triad and one tone more. */
export interface FullerChord {
  readonly chord: Chord;
  readonly added: PitchClass;
  /** Whether the tone more is a dominant's root that lies in the bass: then the triad is no chord of its own. */
  readonly isRooted: boolean;
}

/** Share of the span from which on a tone that does not resolve within it counts as a member; an augmented sixth is made by its very tone. */
const memberFrom = { tone: 0.5, augmentedSixth: 0.25 } as const;

/** The chords of four tones that a triad may be taken out of: qualities by that of the triad, their roots in fifths from its own. */
const extensions: Partial<Record<ChordQuality, readonly (readonly [quality: ChordQuality, root: number])[]>> =
  {
    major: [
      ['dominant seventh', 0],
      ['minor seventh', 3],
      ['German augmented sixth', 10],
    ],
    minor: [['half-diminished seventh', 3]],
    diminished: [['dominant seventh', -4]],
  };
const extensionsOf = ({ root, quality }: Chord): readonly Chord[] =>
  (extensions[quality] ?? []).map(([name, fifths]) => chordOn(transposed(root, fifths), name));

/**
 * The fuller chord that a claimed triad is taken out of, where the tone more is a member: it sounds for half of the span and does not resolve
 * into the triad while that sounds (common practice: an ornament resolves within its harmony; IV with a D under it is ii65). A native seventh
 * over the same root is left out in root position: V may be said for V7, but figures name what lies over the bass, and V6 is not V65. `undefined`
 * where the triad stands for itself.
 */
export function fullerChord(
  analysis: Analysis,
  { question, chord, hearing, best, segments }: Weighed,
): FullerChord | undefined {
  if (chord.tones.length !== 3) return undefined;
  const { sound } = heardIn(analysis);
  const start = ticksOf(question.start, sound.ticksPerWhole);
  const end = Math.max(start + 1, ticksOf(question.end, sound.ticksPerWhole));
  const first = hearing.basses?.first;
  const resolves = ({ next, departure }: Tone): boolean => {
    const goal = next === undefined ? undefined : sound.tones[next];
    return (
      goal !== undefined &&
      departure.startsWith('step') &&
      goal.on < end &&
      chord.tones.includes(goal.pitchClass)
    );
  };
  const isLowest = (added: PitchClass): boolean => first?.pitchClass === added && first.on >= start;
  const isMember = (added: PitchClass, of: Chord): boolean =>
    (isLowest(added) ||
      (hearing.present.get(added) ?? 0) >=
        hearing.beats * memberFrom[isAugmentedSixth(of) ? 'augmentedSixth' : 'tone']) &&
    !hearing.tones.filter(({ pitchClass }) => pitchClass === added).every(resolves);
  const isChromatic = (added: PitchClass): boolean =>
    question.key !== undefined && !nativeTones(question.key).includes(added);
  const isFigured = question.bass !== undefined && question.bass !== chord.root;
  const heard = [best, ...segments.map(segment => segment.chord)];
  const isHeard = (added: PitchClass): boolean => heard.some(({ tones }) => tones.includes(added));
  const isWhole = ({ tones }: Chord): boolean => tones.every(tone => hearing.present.has(tone));
  for (const of of [...heard, ...extensionsOf(chord).filter(isWhole)]) {
    if (of.tones.length !== 4 || !chord.tones.every(tone => of.tones.includes(tone))) continue;
    const added = of.tones.find(tone => !chord.tones.includes(tone));
    if (added === undefined || !hearing.present.has(added)) continue;
    const isPedal = first?.pitchClass === added && howLongStays(analysis, first) === 'through changes';
    if (of.root === added && of.quality === 'dominant seventh' && isLowest(added))
      return { chord: of, added, isRooted: !isPedal };
    const isOther =
      of.root !== chord.root
        ? isHeard(added)
        : isChromatic(added) ||
          isLowest(added) ||
          (isFigured && isHeard(added) && best.tones.includes(added));
    if (isOther && isMember(added, of)) return { chord: of, added, isRooted: false };
  }
  return undefined;
}
