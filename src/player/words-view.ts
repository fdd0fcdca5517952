import { html } from './dom.js';
import type { TranscriptView } from './transcript-view.js';

/** Two ways to read the lesson: step by step, or as a transcript. */
export function wordsSwitch(steps: readonly HTMLElement[], transcript: TranscriptView): HTMLElement {
  const make = (label: string): HTMLButtonElement => html('button', { type: 'button' }, label);
  const [first, second] = [make('Steps'), make('Transcript')];
  const show = (asTranscript: boolean): void => {
    first.setAttribute('aria-pressed', String(!asTranscript));
    second.setAttribute('aria-pressed', String(asTranscript));
    for (const element of steps) element.hidden = asTranscript;
    transcript.element.hidden = !asTranscript;
    if (asTranscript) transcript.fill();
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
