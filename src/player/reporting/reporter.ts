import type { PageData } from '../../timeline/index.js';
import { isSettled, type LessonProgress } from '../progress.js';

/** What a learning platform hears of a student's work. */
export interface LearningReport {
  readonly answers: readonly {
    readonly id: string;
    readonly question: string;
    readonly given: string;
    readonly right: boolean;
  }[];
  /** Questions answered right, as a share of all; absent where the lesson asks none. */
  readonly score?: number;
  /** Every step heard and every question settled. */
  readonly complete: boolean;
}

export interface Reporter {
  /** Tells the platform the present state; it hears of each thing once. */
  readonly report: (report: LearningReport) => void;
  /** The page is being left. */
  readonly end: () => void;
}

/** The state of a lesson as a platform wants to know it. */
export function learningReport(data: PageData, { heard, answers }: LessonProgress): LearningReport {
  const questions = data.steps.flatMap(({ script }) => script.filter(action => action.kind === 'ask'));
  const right = questions.filter(({ id }) => answers[id]?.right === true).length;
  return {
    answers: questions.flatMap(({ id, question }) => {
      const answer = answers[id];
      return answer === undefined || !isSettled(answer)
        ? []
        : [{ id, question, given: answer.given, right: answer.right }];
    }),
    ...(questions.length === 0 ? {} : { score: right / questions.length }),
    complete:
      data.steps.every((_, index) => heard.includes(index)) &&
      questions.every(({ id }) => isSettled(answers[id])),
  };
}
