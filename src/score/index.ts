export * from './fraction.js';
export * from './pitch.js';
export type * from './model.js';
export { readScore } from './read-score.js';
