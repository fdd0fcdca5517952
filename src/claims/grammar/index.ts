export * from './failure.js';
export { endOfSpelling } from './loosely.js';
export { wordAt } from './openings.js';
export * from './parser.js';
export * from './terminals.js';
export { printGrammar } from './ebnf.js';
export * as shapes from './shape.js';
export type { Shape } from './shape.js';
