import { html } from './dom.js';

export interface AnswerForm {
  readonly element: HTMLFormElement;
  readonly clear: () => void;
  readonly focus: () => void;
}

/** A line to write a chord or a numeral on. `onEntry` hears what was written, never an empty line. */
export function answerForm(label: string, hint: string, onEntry: (entry: string) => void): AnswerForm {
  const input = html('input', {
    type: 'text',
    autocomplete: 'off',
    autocapitalize: 'off',
    autocorrect: 'off',
    spellcheck: 'false',
    maxlength: 60,
  });
  const element = html(
    'form',
    { class: 'answer-form' },
    html('label', {}, html('span', {}, label), input),
    html('button', { type: 'submit' }, 'Check'),
    html('p', { class: 'hint' }, hint),
  );
  element.addEventListener('submit', event => {
    event.preventDefault();
    if (input.value.trim() !== '') onEntry(input.value.trim());
  });
  return {
    element,
    clear: () => {
      input.value = '';
    },
    focus: () => {
      input.focus();
    },
  };
}

export const harmonyHint =
  'A chord (A7/C#) or a numeral (V6/5, viio7/V); o is diminished, ø half-diminished.';
