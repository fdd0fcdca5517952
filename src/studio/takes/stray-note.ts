import { html } from '../../player/index.js';
import { ableButton } from './able.js';

export interface StrayNote {
  readonly element: HTMLElement;
  /** @param strays how many takes were made for words that stand elsewhere now */
  readonly show: (strays: number) => void;
}

/** Offers to bring takes to their words, which have gone elsewhere because texts were inserted, removed or put in another order. */
export function strayNote(follow: () => void): StrayNote {
  const words = html('span', {});
  const element = html('p', { class: 'row strays' }, words, ableButton('Let them follow', follow));
  element.hidden = true;
  return {
    element,
    show: strays => {
      element.hidden = strays === 0;
      words.textContent =
        strays === 1
          ? 'One take was made for words that stand elsewhere now.'
          : `${String(strays)} takes were made for words that stand elsewhere now.`;
    },
  };
}
