import { html } from './dom.js';

/** Two ways to read the lesson: step by step, or as a transcript. */
export function wordsSwitch(steps: readonly HTMLElement[], transcript: HTMLElement): HTMLElement {
  const make = (label: string): HTMLButtonElement => html('button', { type: 'button' }, label);
  const [first, second] = [make('Steps'), make('Transcript')];
  const show = (asTranscript: boolean): void => {
    first.setAttribute('aria-pressed', String(!asTranscript));
    second.setAttribute('aria-pressed', String(asTranscript));
    for (const element of steps) element.hidden = asTranscript;
    transcript.hidden = !asTranscript;
  };
  first.addEventListener('click', () => {
    show(false);
  });
  second.addEventListener('click', () => {
    show(true);
  });
  show(false);
  return html('div', { class: 'words-switch', role: 'group', 'aria-label': 'Read as' }, first, second);
}
