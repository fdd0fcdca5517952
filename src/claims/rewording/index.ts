export { rewordings } from './reword.js';
export { turns } from './turns.js';
export { shortened } from './shorten.js';
