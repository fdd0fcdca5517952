import type { PageData } from '../timeline/index.js';
import { html } from './dom.js';
import { isSettled, type LessonProgress } from './progress.js';
import type { AskAction } from './question-view.js';
import { fileName, saveText } from './save-text.js';

export interface SummaryView {
  readonly element: HTMLElement;
  readonly update: (progress: LessonProgress) => void;
}

const questionsOf = (data: PageData): readonly AskAction[] =>
  data.steps.flatMap(({ script }) => script.filter(action => action.kind === 'ask'));

const triesInWords = (tries: number): string => (tries === 1 ? 'at the first try' : `after ${tries} tries`);

/** One line on a question: how it was answered. */
function lineOf(question: AskAction, { answers }: LessonProgress): string {
  const answer = answers[question.id];
  if (answer === undefined) return 'not answered yet';
  if (answer.right) return `${answer.given}: right, ${triesInWords(answer.tries)}`;
  if (answer.shown) return `answer shown: ${question.answer}`;
  return `${answer.given}: not right yet`;
}

/** The summary as a text to be kept or handed in. */
export function summaryText(data: PageData, progress: LessonProgress): string {
  const questions = questionsOf(data);
  const right = questions.filter(({ id }) => progress.answers[id]?.right === true).length;
  return [
    data.title,
    '',
    `${right} of ${questions.length} questions answered right, ${progress.heard.length} of ${data.steps.length} steps heard`,
    '',
    ...questions.flatMap((question, index) => [
      `${index + 1}. ${question.question}`,
      `   ${lineOf(question, progress)}`,
    ]),
    '',
  ].join('\n');
}

/** What a student has answered so far, to be saved as a text, and the wish to begin again. */
export function summaryView(data: PageData, onForget: () => void): SummaryView {
  const questions = questionsOf(data);
  let shown: LessonProgress | undefined;
  const count = html('p', {});
  const list = html('ol', {});
  const save = html('button', { type: 'button' }, 'Save as text');
  save.addEventListener('click', () => {
    if (shown !== undefined) saveText(fileName(data.title, 'answers'), summaryText(data, shown));
  });
  const again = html('button', { type: 'button' }, 'Begin again');
  again.addEventListener('click', onForget);
  return {
    element: html(
      'section',
      { class: 'summary', 'aria-label': 'Your answers' },
      html('h2', {}, 'Your answers'),
      count,
      list,
      html('div', { class: 'choices' }, save, again),
    ),
    update: progress => {
      shown = progress;
      const settled = questions.filter(({ id }) => isSettled(progress.answers[id])).length;
      const right = questions.filter(({ id }) => progress.answers[id]?.right === true).length;
      count.textContent =
        questions.length === 0
          ? `${progress.heard.length} of ${data.steps.length} steps heard.`
          : `${right} right, ${settled} of ${questions.length} settled; ${progress.heard.length} of ${data.steps.length} steps heard.`;
      list.replaceChildren(
        ...questions.map(question =>
          html('li', {}, `${question.question} `, html('em', {}, lineOf(question, progress))),
        ),
      );
    },
  };
}
