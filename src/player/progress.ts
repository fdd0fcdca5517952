import { storedText, storeText } from './stored.js';

/** How a question was answered. */
export interface Answered {
  readonly given: string;
  readonly tries: number;
  readonly right: boolean;
  /** The student had the answer shown. */
  readonly shown: boolean;
}

/** Whether a question is settled: answered, or its answer shown. */
export const isSettled = (answer: Answered | undefined): boolean =>
  answer !== undefined && (answer.right || answer.shown);

/** How far a student is in one lesson. */
export interface LessonProgress {
  /** Index of the step that was open last. */
  readonly step: number;
  /** Indexes of the steps heard to their end. */
  readonly heard: readonly number[];
  /** By the id of the question; of several tries the last. */
  readonly answers: Readonly<Record<string, Answered>>;
}

export const untouched: LessonProgress = { step: 0, heard: [], answers: {} };

const isCount = (value: unknown): value is number => Number.isInteger(value) && Number(value) >= 0;

function readAnswers(value: unknown): LessonProgress['answers'] {
  if (typeof value !== 'object' || value === null) return {};
  return Object.fromEntries(
    Object.entries(value).flatMap(([id, one]: [string, unknown]) => {
      const { given, tries, right, shown } = (one ?? {}) as Partial<Record<keyof Answered, unknown>>;
      return typeof given === 'string' && isCount(tries) && typeof right === 'boolean'
        ? [[id, { given, tries, right, shown: shown === true }]]
        : [];
    }),
  );
}

/** Reads progress from text; whatever is missing or strange is as at first. */
export function readProgress(text: string | null): LessonProgress {
  let read: unknown;
  try {
    read = JSON.parse(text ?? '{}');
  } catch {
    return untouched;
  }
  if (typeof read !== 'object' || read === null) return untouched;
  const { step, heard, answers } = read as Partial<Record<keyof LessonProgress, unknown>>;
  return {
    step: isCount(step) ? step : 0,
    heard: Array.isArray(heard) ? heard.filter(isCount) : [],
    answers: readAnswers(answers),
  };
}

export interface ProgressKeeper {
  readonly now: () => LessonProgress;
  readonly open: (step: number) => void;
  readonly heard: (step: number) => void;
  readonly answered: (ask: string, answer: Answered) => void;
  readonly forget: () => void;
}

/** Keeps the progress of a lesson in the browser, each lesson under its own name. `onChange` hears every change. */
export function progressKeeper(lesson: string, onChange: (progress: LessonProgress) => void): ProgressKeeper {
  const place = `barwise.progress.${lesson}`;
  let progress = readProgress(storedText(place));
  const keep = (changed: Partial<LessonProgress>): void => {
    progress = { ...progress, ...changed };
    // Another page of the same lesson may have written meanwhile: what was heard and answered there stays.
    const stored = readProgress(storedText(place));
    storeText(
      place,
      JSON.stringify({
        ...progress,
        heard: [...new Set([...stored.heard, ...progress.heard])].sort((a, b) => a - b),
        answers: { ...stored.answers, ...progress.answers },
      }),
    );
    onChange(progress);
  };
  return {
    now: () => progress,
    open: step => {
      if (step !== progress.step) keep({ step });
    },
    heard: step => {
      if (!progress.heard.includes(step)) keep({ heard: [...progress.heard, step] });
    },
    answered: (ask, answer) => {
      keep({ answers: { ...progress.answers, [ask]: answer } });
    },
    forget: () => {
      progress = untouched;
      storeText(place, JSON.stringify(progress));
      onChange(progress);
    },
  };
}
