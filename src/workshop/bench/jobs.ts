import type { Answer, Answers, Payload } from '../../bridge/index.js';

/** Where the sound of a lesson comes from. */
interface Speaking {
  /** Folder that keeps what was spoken. */
  readonly speech: string;
}

interface LessonText {
  /** Where the lesson lies or will lie. */
  readonly path: string;
  readonly text: string;
}

/** Long work, done in a thread of its own so that the host answers and its window moves meanwhile. */
export interface Jobs {
  readonly preview: LessonText & Speaking;
  /** Writes every file into a folder that exists and that nobody else uses. */
  readonly build: LessonText & Speaking & { readonly into: string; readonly also: readonly string[] };
  readonly draft: { readonly score: string };
  readonly takes: LessonText;
  readonly 'read-take': Payload<'readTake'>;
  readonly 'save-take': Payload<'saveTake'>;
  readonly 'use-take': Payload<'useTake'>;
  readonly 'undo-take': Payload<'undoTake'>;
  readonly 'move-takes': LessonText;
}

/** What comes of each job. */
export interface JobResults {
  /** The student's page. */
  readonly preview: { readonly html: Uint8Array };
  readonly build: Pick<Answers['build'], 'left'> & { readonly names: readonly string[] };
  readonly draft: { readonly text: string };
  readonly takes: Answers['takes'];
  readonly 'read-take': Answers['readTake'];
  readonly 'save-take': Answers['saveTake'];
  readonly 'use-take': Answers['useTake'];
  readonly 'undo-take': Answers['undoTake'];
  readonly 'move-takes': Answers['moveTakes'];
}

export type JobName = keyof Jobs;

export interface Progress {
  readonly doing: string;
  /** From 0 to 1, where it is known. */
  readonly share?: number;
}

/** To the thread. */
export type Order = { readonly [N in JobName]: { readonly name: N; readonly job: Jobs[N] } }[JobName];

/** From the thread. */
export type Report =
  | { readonly kind: 'progress'; readonly progress: Progress }
  | { readonly kind: 'done'; readonly answer: Answer<JobResults[JobName]> }
  /** The program has a fault. */
  | { readonly kind: 'fault'; readonly stack: string };
