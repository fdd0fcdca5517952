export { rewordings } from './reword.js';
export { turns } from './turns.js';
