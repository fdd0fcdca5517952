import { word } from '../grammar/index.js';

/** The piece by what it is; of other kinds of pieces a sentence may not be sure to speak of this one. */
export const wholePiece = word(
  'piece',
  'music',
  'score',
  'chorale',
  'hymn',
  'song',
  'waltz',
  'minuet',
  'march',
  'movement',
  'composition',
);
