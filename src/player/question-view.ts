import type { PageAction, PageClaim } from '../timeline/index.js';
import { answerForm, harmonyHint } from './answer-form.js';
import { claimNote } from './claim-note.js';
import { html } from './dom.js';
import { sameWords, type Judgement } from './judge.js';
import { isSettled, type Answered } from './progress.js';
import { revealAnswer } from './reveal.js';

export type AskAction = Extract<PageAction, { readonly kind: 'ask' }>;

export interface QuestionParts {
  /** The statement that proves the answer. */
  readonly proof: PageClaim | undefined;
  /** Judges a chord or a numeral by the notes; absent where the question asks for something else. */
  readonly judge: ((entry: string) => Judgement) | undefined;
  readonly before: Answered | undefined;
  readonly onAnswered: (answer: Answered) => void;
  readonly onContinue: () => void;
}

export interface QuestionView {
  readonly element: HTMLElement;
  /** Shown while the lesson waits for the answer. */
  readonly setWaiting: (waiting: boolean) => void;
  /** As if it had never been answered. */
  readonly reset: () => void;
}

/** How an answer is received. */
export function reception(judgement: Extract<Judgement, { kind: 'judged' }>): string {
  switch (judgement.claim.verdict) {
    case 'holds':
      return 'Yes';
    case 'arguable':
      return 'Yes, that can be argued';
    case 'undecided':
      return 'The notes do not settle that';
    case 'fails':
      return 'Not quite';
  }
}

/** A question with its choices, or with a line to write on. An answer is told right or not, with the reason. */
export function questionView(question: AskAction, parts: QuestionParts): QuestionView {
  const feedback = html('div', { class: 'feedback', 'aria-live': 'polite' });
  const goOn = html('button', { type: 'button', class: 'primary' }, 'Go on');
  goOn.addEventListener('click', parts.onContinue);
  goOn.hidden = true;
  const id = `question-${question.id.replace(/[^\w-]/g, '-')}`;
  let answer: Answered | undefined = parts.before;

  const choices = question.choices.map(choice => {
    const button = html('button', { type: 'button', class: 'choice', 'aria-pressed': 'false' }, choice);
    button.addEventListener('click', () => {
      for (const other of choices) other.setAttribute('aria-pressed', String(other === button));
      given(choice, choice === question.answer);
    });
    return button;
  });
  const form = answerForm('Your answer', parts.judge === undefined ? '' : harmonyHint, entry => {
    if (sameWords(entry, question.answer)) {
      given(entry, true);
      return;
    }
    const judgement = parts.judge?.(entry);
    if (judgement === undefined) given(entry, false);
    else if (judgement.kind === 'unread') feedback.replaceChildren(html('p', {}, judgement.help));
    else given(entry, judgement.right, judgement);
  });
  const showAnswer = html('button', { type: 'button' }, 'Show the answer');
  showAnswer.addEventListener('click', () => {
    answer = {
      given: answer?.given ?? '',
      tries: answer?.tries ?? 0,
      right: answer?.right ?? false,
      shown: true,
    };
    tell('The answer', question.answer, parts.proof);
    parts.onAnswered(answer);
  });

  function given(text: string, right: boolean, judgement?: Extract<Judgement, { kind: 'judged' }>): void {
    const settled = isSettled(answer);
    // After the question is settled a student may try on, but the record stands.
    if (!settled) answer = { given: text, tries: (answer?.tries ?? 0) + 1, right, shown: false };
    if (judgement !== undefined)
      tell(reception(judgement), right ? text : 'Try again, or look at the answer.', judgement.claim);
    else if (right) tell('Yes', question.answer, parts.proof);
    else tell('Not quite', 'Try again, or look at the answer.', undefined);
    if (!settled && answer !== undefined) parts.onAnswered(answer);
  }

  function tell(start: string, words: string, reason: PageClaim | undefined): void {
    feedback.replaceChildren(
      html('p', {}, html('strong', {}, `${start}. `), words),
      ...(reason === undefined ? [] : [claimNote(reason)]),
    );
    showAnswer.hidden = isSettled(answer);
    const scroller = feedback.closest('.words');
    if (scroller !== null) revealAnswer(scroller, element, feedback);
  }

  const element = html(
    'div',
    { class: 'question', role: 'group', 'aria-labelledby': id },
    html('p', { class: 'question-text', id }, question.question),
    ...(choices.length === 0 ? [form.element] : []),
    html('div', { class: 'choices' }, ...choices, showAnswer),
    feedback,
    goOn,
  );
  if (answer !== undefined && isSettled(answer)) {
    const own = answer.right ? `You answered: ${answer.given}.` : 'You had the answer shown.';
    feedback.append(html('p', {}, `${own} The answer: ${question.answer}.`));
    showAnswer.hidden = true;
  }
  return {
    element,
    setWaiting: waiting => {
      element.classList.toggle('waiting', waiting);
      goOn.hidden = !waiting;
    },
    reset: () => {
      answer = undefined;
      feedback.replaceChildren();
      form.clear();
      showAnswer.hidden = false;
      for (const choice of choices) choice.setAttribute('aria-pressed', 'false');
    },
  };
}
