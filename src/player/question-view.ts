import type { PageAction, PageClaim } from '../timeline/index.js';
import { html } from './dom.js';
import { claimNote } from './claim-note.js';

export type Question = Extract<PageAction, { readonly kind: 'ask' }>;

export interface QuestionView {
  readonly element: HTMLElement;
  /** Shown while the lesson waits for the answer. */
  readonly setWaiting: (waiting: boolean) => void;
}

/**
 * A question with its choices. An answer is told right or not, with the proof; `onAnswered` hears the first answer (or the wish to see
 * it), `onContinue` the wish to go on.
 */
export function questionView(
  question: Question,
  proof: PageClaim | undefined,
  onAnswered: () => void,
  onContinue: () => void,
): QuestionView {
  const feedback = html('div', { class: 'feedback', 'aria-live': 'polite' });
  const goOn = html('button', { type: 'button', class: 'primary' }, 'Go on');
  goOn.addEventListener('click', onContinue);
  goOn.hidden = true;
  const id = `question-${question.id.replace(/[^\w-]/g, '-')}`;
  const choices = question.choices.map(choice => {
    const button = html('button', { type: 'button', class: 'choice', 'aria-pressed': 'false' }, choice);
    button.addEventListener('click', () => {
      for (const other of choices) other.setAttribute('aria-pressed', String(other === button));
      tell(choice === question.answer ? 'Yes' : 'Not quite', choice === question.answer);
    });
    return button;
  });
  const reveal = html('button', { type: 'button' }, 'Show the answer');
  reveal.addEventListener('click', () => {
    tell('The answer', true);
  });

  function tell(start: string, complete: boolean): void {
    feedback.replaceChildren(
      html(
        'p',
        {},
        html('strong', {}, `${start}. `),
        complete ? question.answer : 'Try again, or look at the answer.',
      ),
      ...(complete && proof !== undefined ? [claimNote(proof)] : []),
    );
    if (complete) {
      reveal.hidden = true;
      onAnswered();
    }
  }

  const element = html(
    'div',
    { class: 'question', role: 'group', 'aria-labelledby': id },
    html('p', { class: 'question-text', id }, question.question),
    html('div', { class: 'choices' }, ...choices, reveal),
    feedback,
    goOn,
  );
  return {
    element,
    setWaiting: waiting => {
      element.classList.toggle('waiting', waiting);
      goOn.hidden = !waiting;
    },
  };
}
