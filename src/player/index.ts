export { html, svg } from './dom.js';
export { notationView } from './notation/notation-view.js';
export type { NotationView } from './notation/notation-view.js';
