export * from './fraction.js';
export * from './pitch.js';
export { choirPart } from './choir.js';
export type * from './model.js';
export { readScore } from './read-score.js';
export { mostCharacters } from './limits.js';
export { putMetres, withoutMetresBehindVoices } from './metre-behind-voice.js';
export {
  barAt,
  barsNamed,
  beatUnitOf,
  metricalWeight,
  onsetAt,
  placeAt,
  type MetricalPlace,
} from './metre.js';
export { isCompound, isFree } from './meter.js';
export { soundingUntil, tieChain } from './tie-chain.js';
