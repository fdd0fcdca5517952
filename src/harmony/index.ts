export type * from './model.js';
export type * from './judgement.js';
export * from './key.js';
export {
  chord,
  bassOf,
  chordQualities,
  describeChord,
  inversionNames,
  nameChord,
  printChord,
  readChordSymbol,
  sameChord,
} from './chord.js';
export * from './roman-numeral.js';
export { embellishes } from './common-tone.js';
export { keyOfTarget, realize } from './realize.js';
export type { SeventhConvention } from './realize.js';
export { analyse } from './analyse.js';
export { judgeCadence } from './judge-cadence.js';
export { judgeChord } from './judge-chord.js';
export { judgeKey } from './judge-key.js';
export { romanFor } from './readings.js';
export { hasProgression, sequenceEnd } from './sequences.js';
export { sequenceIn } from './statements.js';
export { segmentAt, segmentsBetween } from './segment-at.js';
