import { html } from './dom.js';

export interface ScoreToolHandlers {
  readonly lookCloser: () => void;
  readonly uncoverNext: () => void;
  readonly coverAgain: () => void;
  readonly practise: () => void;
}

export interface ScoreTools {
  readonly element: HTMLElement;
  /** Whether labels are covered one by one, and how many still are. */
  readonly setCovered: (oneByOne: boolean, left: number) => void;
  readonly setLooking: (looking: boolean) => void;
  readonly setPractising: (practising: boolean) => void;
  readonly focus: () => void;
}

/** The few things that are done with the score itself, at its head. */
export function scoreTools(handlers: ScoreToolHandlers): ScoreTools {
  const button = (label: string, press: () => void, attributes = {}): HTMLButtonElement => {
    const made = html('button', { type: 'button', ...attributes }, label);
    made.addEventListener('click', press);
    return made;
  };
  const closer = button('Look closer', handlers.lookCloser, { 'aria-pressed': 'false' });
  const next = button('Uncover next', handlers.uncoverNext);
  const practise = button('Practise', handlers.practise, { 'aria-pressed': 'false' });
  const again = button('Cover again', handlers.coverAgain);
  next.hidden = true;
  again.hidden = true;
  return {
    element: html(
      'div',
      { class: 'score-tools', role: 'group', 'aria-label': 'Score tools' },
      next,
      again,
      practise,
      closer,
    ),
    setCovered: (oneByOne, left) => {
      next.hidden = !oneByOne || left === 0;
      again.hidden = !oneByOne || left > 0;
    },
    setLooking: looking => {
      closer.setAttribute('aria-pressed', String(looking));
    },
    setPractising: practising => {
      practise.setAttribute('aria-pressed', String(practising));
    },
    focus: () => {
      closer.focus();
    },
  };
}
