export type * from './model.js';
export type * from './judgement.js';
