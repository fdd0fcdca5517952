import type { ChordPart } from '../chord-part.js';
import { choice, map, optional, quiet, sequence, word, wordsFor } from '../grammar/index.js';
import type { Parser } from '../grammar/index.js';

/** A member of a chord: `root`, `chordal seventh`. */
export const chordPartName: Parser<ChordPart> = wordsFor<ChordPart>([
  ['root', 'root', 'chord root'],
  ['third', 'third', 'chord third', '3rd'],
  ['fifth', 'fifth', 'chord fifth', '5th'],
  ['seventh', 'seventh', 'chord seventh', 'chordal seventh', '7th'],
  ['ninth', 'ninth', 'chord ninth', '9th'],
]);

const ofTheChord = word('of the chord', 'of its chord', 'of the harmony', 'of the triad');
/** A member that cannot be taken for a degree or an interval: `third of the chord`, `chordal seventh`, `root`. */
export const chordPartOf: Parser<ChordPart> = choice<ChordPart>(
  map(sequence(chordPartName, ofTheChord), ([part]) => part),
  map(sequence(word('root'), quiet(optional(ofTheChord))), () => 'root'),
  map(word('chordal seventh', 'chord seventh'), () => 'seventh'),
);
