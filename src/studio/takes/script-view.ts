import { html } from '../../player/index.js';
import type { SpokenPart } from '../../bridge/index.js';
import { clock, inSeconds } from './seconds.js';

export interface ScriptView {
  readonly element: HTMLElement;
  readonly show: (part: SpokenPart | undefined, stepTitle: string) => void;
}

/** The words that are to be spoken, large enough to be read from where one speaks. */
export function scriptView(showInText: () => void): ScriptView {
  const title = html('h3', {});
  const time = html('span', { class: 'quiet' });
  const go = html('button', { type: 'button' }, 'Show in the text');
  go.addEventListener('click', showInText);
  const words = html('div', { class: 'script', tabindex: 0, role: 'region', 'aria-label': 'Script' });
  const element = html('div', {}, html('div', { class: 'row' }, title, time, go), words);
  return {
    element,
    show: (part, stepTitle) => {
      element.hidden = part === undefined;
      if (part === undefined) return;
      const { id, start, seconds, take } = part;
      title.textContent = `${id} · ${stepTitle}`;
      time.textContent = [
        ...(start === undefined ? [] : [`heard at ${clock(start)}`]),
        `${inSeconds(seconds)}${take === undefined ? ', estimated' : ''}`,
      ].join(', ');
      words.replaceChildren(
        ...part.words
          .split(/\n\s*\n/u)
          .map(paragraph => html('p', {}, paragraph.replace(/\s+/gu, ' ').trim())),
      );
    },
  };
}
