export type * from './model.js';
export { checkLesson } from './check.js';
export type { CheckedClaim, CheckedWords, LessonScores } from './check.js';
export { comparedVersions, playedVersions } from './versions.js';
export { draftLesson } from './draft.js';
export { lessonJsonSchema } from './json-schema.js';
export type { OpinionWords, ProseCoverage, UncheckedWords } from './prose.js';
export { readLesson } from './read-lesson.js';
export { cadenceWords, holdsIn, numeralSentence, placeOfHarmony } from './sentences.js';
