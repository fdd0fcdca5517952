export { affirmation } from './affirmation.js';
export { rewordings } from './reword.js';
export { turns } from './turns/index.js';
export { shortened } from './shorten.js';
