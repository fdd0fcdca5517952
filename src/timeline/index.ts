export type * from './model.js';
export type * from './page-data.js';
