import type { PitchClass } from '../score/index.js';
import { degreeTone } from './key.js';
import type { CadenceKind, ChordQuality, Key } from './model.js';

/** A chord that can stand in a cadence, with its bass where the cadence asks for one. */
export type Member = readonly [root: PitchClass, quality: ChordQuality, bass?: PitchClass];

export interface Formula {
  readonly before: readonly Member[];
  readonly arrival: readonly Member[];
}

/** The two chords of each cadence (Hutchinson, Cadences; Open Music Theory, Cadence Types). */
export function formulaOf(kind: CadenceKind, key: Key): Formula {
  const { tonic, mode } = key;
  const dominant = degreeTone(key, 5);
  const leading = degreeTone(key, 7, mode === 'minor' ? 1 : 0);
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
  const tonics: readonly Member[] = [
    [tonic, mode],
    [tonic, 'major'],
  ];
  const sixth = degreeTone(key, 6);
  const fourth = degreeTone(key, 4);
  switch (kind) {
    case 'perfect authentic':
      return { before: rooted, arrival: tonics.map(([root, quality]): Member => [root, quality, tonic]) };
    case 'imperfect authentic':
      return { before: [...dominants, ...leadingTone], arrival: tonics };
    case 'half':
      return { before: [], arrival: rooted };
    case 'deceptive':
      return {
        before: dominants,
        arrival: [
          [sixth, mode === 'major' ? 'minor' : 'major'],
          [degreeTone({ tonic, mode: 'minor' }, 6), 'major'],
          [fourth, mode, sixth],
        ],
      };
    case 'evaded':
      return {
        before: dominants,
        arrival: [
          [tonic, mode, degreeTone(key, 3)],
          [tonic, 'dominant seventh'],
          [dominant, 'dominant seventh', fourth],
          [sixth, mode === 'major' ? 'minor' : 'major'],
        ],
      };
    case 'plagal':
      return {
        before: [
          [fourth, mode],
          [fourth, 'minor'],
          [fourth, 'major'],
        ],
        arrival: tonics,
      };
  }
}
