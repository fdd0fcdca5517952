import type { Timeline } from '../timeline/index.js';

/** What is heard at one moment of the lesson. */
export interface Sounding {
  /** Path of the other version of the piece that plays; absent for the lesson's own. */
  readonly score?: string;
  /** Index of the bar that plays. */
  readonly bar?: number;
  /** Ids of the written notes that sound. */
  readonly notes: readonly number[];
  /** The say and the index of its word that is spoken. */
  readonly say?: string;
  readonly word?: number;
}

/** Finds what sounds at `at` seconds of the lesson. A word stays current until the next one begins. */
export function whatSounds(timeline: Timeline, at: number): Sounding {
  const now = timeline.events.filter(event => event.start <= at && at < event.end);
  const bar = now.findLast(event => event.kind === 'bar');
  const speech = now.findLast(event => event.kind === 'speech');
  const word = speech?.words.findLastIndex(({ start }) => start <= at) ?? -1;
  return {
    ...(bar?.score === undefined ? {} : { score: bar.score }),
    ...(bar === undefined ? {} : { bar: bar.bar }),
    notes: now.flatMap(event => (event.kind === 'note' && event.score === bar?.score ? event.notes : [])),
    ...(speech === undefined ? {} : { say: speech.say }),
    ...(word < 0 ? {} : { word }),
  };
}
