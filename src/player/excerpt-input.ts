import type { Analysis } from '../harmony/index.js';
import { chordsOfAnalysis, type ExcerptInput, type PageData } from '../timeline/index.js';

/** What excerpts of the lesson's own score are played from: at the lesson's tempo, with its pedal. */
export const excerptInput = ({ tempo, beat, pedal }: PageData, reading: Analysis): ExcerptInput => ({
  lesson: {
    ...(tempo === undefined ? {} : { tempo }),
    ...(beat === undefined ? {} : { beat }),
    sound: { pedal },
  },
  score: reading.score,
  chordsIn: chordsOfAnalysis(() => reading),
});
