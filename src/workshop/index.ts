export { checkLessonText, emptyReport } from './reading/check-lesson.js';
export type { CheckedText } from './reading/check-lesson.js';
export { readSource, systemWords } from './reading/read-source.js';
export { scoreLibrary } from './reading/score-library.js';
export type { LoadedScore, ScoreLibrary } from './reading/score-library.js';
