import type { Lesson } from '../lesson/index.js';

/** Silences of the schedule, in seconds. A `wait` in the script replaces the automatic silence at its place. */
export interface Silences {
  /** Before the first sound of the lesson. */
  readonly leadIn: number;
  /** Between the last word and the first note of an example. Common practice of narrated lessons: 0.4 s or more. */
  readonly beforeExample: number;
  /** Between the end of the last note and the next word: the example must have died away. Common practice: 1 s to 1.5 s. */
  readonly afterExample: number;
  /** Between two playings, so that they are heard as a comparison. Common practice: 0.7 s to 1 s. */
  readonly betweenExamples: number;
  /** Between two blocks of talk. Common practice. */
  readonly betweenWords: number;
  /** How long music sounds alone before the narration enters over it. Common practice: 0.5 s to 1 s. */
  readonly aloneUnder: number;
  /** After the last sound of the lesson, for the ring of the instrument. */
  readonly ringOut: number;
  /**
   * Time to think after a question where nobody can press a key: at least 3 s, 3 s to 5 s is best.
   * Source: M. B. Rowe, "Wait time", Journal of Teacher Education 37 (1986).
   */
  readonly thinking: number;
}

export const defaultSilences: Silences = {
  leadIn: 0.5,
  beforeExample: 0.4,
  afterExample: 1,
  betweenExamples: 0.7,
  betweenWords: 0.6,
  aloneUnder: 0.8,
  ringOut: 1.5,
  thinking: 5,
};

/** The silences of a lesson: its own `pacing` before the defaults. */
export function silencesOf({ pacing = {} }: Pick<Lesson, 'pacing'>): Silences {
  return {
    ...defaultSilences,
    beforeExample: pacing['before-example'] ?? defaultSilences.beforeExample,
    afterExample: pacing['after-example'] ?? defaultSilences.afterExample,
    thinking: pacing.thinking ?? defaultSilences.thinking,
  };
}
