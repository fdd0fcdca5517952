import { html } from '../../player/index.js';
import type { Bridge, Payload } from '../../bridge/index.js';
import { problemWords } from '../problem-words.js';

export interface TakeKeeper {
  /** Says why a recording was not written, with a way to try again. */
  readonly element: HTMLElement;
  /** Has a recording written. @returns its number; `undefined` where the user gave it up */
  readonly keep: (recording: Payload<'saveTake'>) => Promise<number | undefined>;
  /** Whether there is a recording that is in this window only. */
  readonly hasUnkept: () => boolean;
}

/** Has recordings written by the host; one that could not be written stays here until it is, or is given up. */
export function takeKeeper(bridge: Bridge): TakeKeeper {
  const element = html('div', { role: 'alert', class: 'trouble' });
  let unkept = 0;

  const isWanted = (words: string): Promise<boolean> =>
    new Promise(resolve => {
      const answer = (label: string, isAgain: boolean): HTMLElement => {
        const button = html('button', { type: 'button' }, label);
        button.addEventListener('click', () => {
          element.replaceChildren();
          resolve(isAgain);
        });
        return button;
      };
      element.replaceChildren(
        html('p', {}, words),
        html('p', { class: 'row' }, answer('Keep it again', true), answer('Drop it', false)),
      );
    });

  return {
    element,
    hasUnkept: () => unkept > 0,
    keep: async recording => {
      unkept += 1;
      try {
        for (;;) {
          const answer = await bridge
            .ask('saveTake', recording)
            .catch((error: unknown) => ({ ok: false as const, problem: { message: String(error) } }));
          if (answer.ok) return answer.value.recording;
          if (!(await isWanted(problemWords(answer.problem)))) return undefined;
        }
      } finally {
        unkept -= 1;
      }
    },
  };
}
