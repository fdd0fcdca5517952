import type { WordTime } from './phones.js';
import type { Sentence } from './sentences.js';

/** The sound of one sentence and the times of its pieces, in seconds from its start. */
export interface SentenceSound {
  readonly samples: Float32Array;
  readonly sampleRate: number;
  readonly times: readonly WordTime[];
}

/** Something that speaks sentences. */
export interface Voice {
  /** Part of the key under which its speech is cached: changes when the same words would sound different. */
  readonly id: string;
  /** Speaks a sentence at about `pace` words a minute. */
  readonly speakSentence: (sentence: Sentence, pace: number) => Promise<SentenceSound>;
}
