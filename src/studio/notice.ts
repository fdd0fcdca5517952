import { html } from '../player/index.js';

/** What has gone well or was the user's own wish is news; what needs the user is a fault. */
export type Tone = 'news' | 'fault';
/** Says something in the line under the commands; an empty message takes away what stands there. */
export type Tell = (message: string, tone?: Tone) => void;

/** The line under the commands, in which the window tells what has happened. */
export function notice(): { readonly element: HTMLElement; readonly tell: Tell } {
  const element = html('p', { class: 'notice', role: 'alert' });
  return {
    element,
    tell: (message, tone = 'news') => {
      element.textContent = message;
      element.classList.toggle('is-fault', tone === 'fault');
    },
  };
}
