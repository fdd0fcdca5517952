import type { PitchClass } from '../score/index.js';
import { degreeTone } from './key.js';
import type { CadenceKind, ChordQuality, Key } from './model.js';

/** A chord that can stand in a cadence, with its bass where the cadence asks for one. */
export type Member = readonly [root: PitchClass, quality: ChordQuality, bass?: PitchClass];

export interface Formula {
  /** Chords that the arrival is reached from; empty where it only must not stand there already. */
  readonly before: readonly Member[];
  readonly arrival: readonly Member[];
  /** Chords that would make it another cadence: they must not fit better than those above. */
  readonly notBefore: readonly Member[];
  readonly notArrival: readonly Member[];
}

/** iv6, from which a Phrygian half cadence reaches V (common practice). */
export const phrygianBefore = (key: Key): Member => [degreeTone(key, 4), 'minor', degreeTone(key, 6)];

/** The two chords of each cadence (Hutchinson, Cadences; Open Music Theory, Cadence Types). */
export function formulaOf(kind: CadenceKind, key: Key): Formula {
  const { tonic, mode } = key;
  const dominant = degreeTone(key, 5);
  const leading = degreeTone(key, 7, mode === 'minor' ? 1 : 0);
  const third = degreeTone(key, 3);
  const dominants: readonly Member[] = [
    [dominant, 'dominant seventh'],
    [dominant, 'major'],
  ];
  const rooted = dominants.map(([root, quality]): Member => [root, quality, dominant]);
  const leadingTone: readonly Member[] = [
    [leading, 'diminished'],
    [leading, 'diminished seventh'],
    [leading, 'half-diminished seventh'],
  ];
  const tonicsOver = (bass: PitchClass): readonly Member[] => [
    [tonic, mode, bass],
    [tonic, 'major', bass],
  ];
  const majorThird = degreeTone({ tonic, mode: 'major' }, 3);
  const sixth = degreeTone(key, 6);
  const flatSixth = degreeTone({ tonic, mode: 'minor' }, 6);
  const fourth = degreeTone(key, 4);
  const submediants: readonly Member[] = [
    [sixth, mode === 'major' ? 'minor' : 'major', sixth],
    [flatSixth, 'major', flatSixth],
  ];
  const none = { notBefore: [], notArrival: [] };
  switch (kind) {
    case 'perfect authentic':
      return { before: rooted, arrival: tonicsOver(tonic), ...none };
    case 'imperfect authentic':
      // Over the fifth degree the tonic chord is a six-four, which belongs to the dominant that follows.
      return {
        before: [...dominants, ...leadingTone],
        arrival: [...tonicsOver(tonic), ...tonicsOver(third), ...tonicsOver(majorThird)],
        notBefore: [],
        notArrival: rooted,
      };
    case 'half':
      return { before: [], arrival: rooted, ...none };
    case 'deceptive':
      return {
        before: dominants,
        arrival: [...submediants, [fourth, mode, sixth]],
        notBefore: [],
        // IV in root position shares two tones with vi.
        notArrival: [...tonicsOver(tonic), [fourth, mode, fourth]],
      };
    case 'evaded':
      return {
        before: dominants,
        arrival: [...tonicsOver(third), [tonic, 'dominant seventh'], [dominant, 'dominant seventh', fourth]],
        notBefore: [],
        notArrival: tonicsOver(tonic),
      };
    case 'plagal':
      return {
        before: [
          [fourth, mode],
          [fourth, 'minor'],
          [fourth, 'major'],
        ],
        arrival: tonicsOver(tonic),
        // V7 and IV share two tones, and the fourth degree in the bass can be the seventh of V.
        notBefore: [...dominants, ...leadingTone],
        notArrival: [],
      };
  }
}
