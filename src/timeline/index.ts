export type * from './model.js';
