export type * from './model.js';
export { findBars } from './bars.js';
export type { BarsInScore } from './bars.js';
export { defaultConventions } from './conventions.js';
export { lessonJsonSchema } from './json-schema.js';
export { readLesson } from './read-lesson.js';
