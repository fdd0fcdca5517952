import type { Span } from '../diagnostics/index.js';
import type { AskAction, Lesson } from '../lesson/index.js';

/** Something that a voice reads aloud. */
export interface SpokenText {
  /** Id of the `say`, of the `ask`, or of the `ask` with `.answer`. */
  readonly id: string;
  /** The words as shown. */
  readonly text: string;
  readonly step: number;
  readonly action: number;
  readonly span: Span;
}

/** A question with its choices as it is read aloud, `Which one? B, D or F sharp?`; it begins with the question as written. */
export function questionText({ question, choices }: Pick<AskAction, 'question' | 'choices'>): string {
  const last = choices.at(-1);
  if (last === undefined) return question;
  const before = choices.slice(0, -1).join(', ');
  return `${question} ${before === '' ? '' : `${before} or `}${last}?`;
}

/** The id of the answer that follows a question after the time to think. */
export const answerId = (ask: AskAction): string => `${ask.id}.answer`;

/** Everything in a lesson that is read aloud, in order; the keys of the speech that `buildTimeline` takes. */
export function spokenTexts(lesson: Lesson): readonly SpokenText[] {
  return lesson.steps.flatMap((step, stepIndex) =>
    step.script.flatMap((action, actionIndex) => {
      const at = { step: stepIndex, action: actionIndex, span: action.span };
      if (action.kind === 'say') return [{ id: action.id, text: action.text, ...at }];
      if (action.kind === 'ask') {
        const answer =
          action.answer.trim() === '' ? [] : [{ id: answerId(action), text: action.answer, ...at }];
        return [{ id: action.id, text: questionText(action), ...at }, ...answer];
      }
      return [];
    }),
  );
}
