import { qualityIntervals } from './chord.js';
import type { ChordQuality } from './model.js';
import type { MetricalLevel } from './moments.js';

/**
 * Costs are in one unit throughout: 1 is a tone of one beat that no rule explains. A harmony of several beats may leave a few weak
 * passing tones aside for less than a change of harmony would cost, and no more.
 */
export const cost = {
  /** A tone draws attention by being struck, however short it is. */
  attack: 0.2,
  /** The lowest tone is heard as the ground of the harmony. */
  bassFactor: 1.5,
  /** Changing the harmony: easiest on the downbeat (Hutchinson, Harmonic Progression: harmonic rhythm follows the metre). */
  change: { 0: 0.1, 1: 0.15, 2: 0.2, 3: 0.6, 4: 1.2 } satisfies Record<MetricalLevel, number>,
  /**
   * A harmony that begins where the bass does not move is less likely: a line alone, and after-beats over a bass that was let go, spell out the
   * harmony that the bass began. Two lines that move over a held bass may well begin another (a pedal).
   */
  changeWithoutBass: 0.2,
  /**
   * Keeping a harmony where a bar or a beat begins: there it is expected to change, the more so where the bass moves to another tone, and half
   * as much at each lower level of the metre (Hutchinson, Harmonic Progression: harmonic rhythm follows the metre).
   */
  stay: {
    overNewBass: { 0: 0.8, 1: 0.4, 2: 0.2, 3: 0.1, 4: 0 } satisfies Record<MetricalLevel, number>,
    overSameBass: { 0: 0.4, 1: 0.2, 2: 0, 3: 0, 4: 0 } satisfies Record<MetricalLevel, number>,
  },
  missingRoot: 0.75,
  /** Without its third a chord is neither major nor minor. */
  missingThird: 0.6,
  /** The fifth is the tone that is left out (Hutchinson, Voice Leading Seventh Chords: incomplete V7). */
  missingFifth: 0.1,
  /** In diminished and augmented chords the fifth is what makes them. */
  missingAlteredFifth: 0.55,
  missingSeventh: 1.4,
  /** Lowest tone root, third, fifth, seventh, ninth. */
  inversion: [0, 0.12, 0.4, 0.22, 1],
  foreignBass: 0.5,
} as const;

/** What a quality costs by itself: plain triads and dominant sevenths are what tonal music is made of. */
export const qualityCost: Partial<Record<ChordQuality, number>> = {
  major: 0,
  minor: 0,
  diminished: 0.25,
  augmented: 0.75,
  'dominant seventh': 0.25,
  'major seventh': 0.8,
  'minor seventh': 0.65,
  'half-diminished seventh': 0.5,
  'diminished seventh': 0.35,
  'minor-major seventh': 1.1,
  'Italian augmented sixth': 0.5,
  'French augmented sixth': 0.5,
  'German augmented sixth': 0.5,
  'dominant ninth': 1.3,
  'dominant minor ninth': 1.3,
};

export const unlistedQuality = 1.2;

/** What each tone of a quality costs where it never sounds, root first. */
export function missingCosts(quality: ChordQuality): readonly number[] {
  const fifth = qualityIntervals[quality][2] === 1 ? cost.missingFifth : cost.missingAlteredFifth;
  return [cost.missingRoot, cost.missingThird, fifth, cost.missingSeventh, cost.missingSeventh];
}
