import { html } from '../player/index.js';
import type { Bridge } from '../bridge/index.js';

export interface PreviewPane {
  readonly element: HTMLElement;
  readonly say: (words: string) => void;
  /** What is shown is no longer the page of the text. */
  readonly textChanged: () => void;
  /** Makes the page out of the text as it stands, and opens it at a step (0-based). */
  readonly make: (path: string, text: string, step: number) => Promise<void>;
}

const pageMade = 'The page is made, from the text as it stands.';

/** The student's page, as it would be built from the text as it stands. */
export function previewPane(bridge: Bridge): PreviewPane {
  const frame = html('iframe', {
    title: "The student's page",
    sandbox: 'allow-scripts allow-downloads allow-modals',
  });
  const said = html('p', { class: 'quiet', role: 'status' }, 'The page has not been made yet.');
  let asked = 0;
  return {
    element: html('section', { class: 'pane preview-pane', 'aria-label': 'Page' }, said, frame),
    say: words => {
      said.textContent = words;
    },
    textChanged: () => {
      if (said.textContent === pageMade) said.textContent = 'The text has changed since the page was made.';
    },
    make: async (path, text, step) => {
      const turn = ++asked;
      said.textContent = 'Making the page …';
      const answer = await bridge.ask('preview', { path, text });
      if (turn !== asked) return;
      if (!answer.ok) {
        said.textContent = `The page was not made: ${answer.problem.message}`;
        return;
      }
      said.textContent = pageMade;
      const address = `${answer.value.url}#step-${String(step + 1)}`;
      // Not by `src`: whoever goes back in the browser would come to pages that are no more.
      frame.contentWindow?.location.replace(new URL(address, location.href));
      frame.dataset['page'] = address;
    },
  };
}
