import { html } from '../player/index.js';
import { withAccidentals } from '../timeline/index.js';
import { barsText } from './put-bars.js';
import type { LabelledBars } from './put-bars.js';
import type { Analysed } from './checked.js';

export interface BarReport {
  readonly element: HTMLElement;
  readonly clear: () => void;
  readonly show: (bars: LabelledBars, analysed: Analysed) => void;
}

export interface BarReportHandlers {
  /** Writes words at the cursor. */
  readonly write: (words: string) => void;
  /** Writes a claim into the lesson. */
  readonly claim: (sentence: string) => void;
}

/** What stands in the chosen bars, and the sentences about them that hold. */
export function barReport(handlers: BarReportHandlers): BarReport {
  const element = html('div', { class: 'told', 'aria-live': 'polite' });
  const put = (words: string, title: string, run: () => void): HTMLElement => {
    const button = html('button', { type: 'button', class: 'put', title }, withAccidentals(words));
    button.addEventListener('click', run);
    return button;
  };
  return {
    element,
    clear: () => {
      element.replaceChildren();
    },
    show: (bars, { harmonies, claims }) => {
      const range = barsText(bars);
      element.replaceChildren(
        html(
          'h2',
          {},
          bars.first === bars.last ? `Bar ${range}` : `Bars ${bars.first}–${bars.last}`,
          ' ',
          put(`write ${range}`, 'at the cursor of the text (Enter in the score)', () => {
            handlers.write(range);
          }),
        ),
        html(
          'ul',
          { class: 'harmonies' },
          ...harmonies.map(({ place, chord, roman, key, rivals }) =>
            html(
              'li',
              {},
              html('span', { class: 'place' }, place),
              ` ${withAccidentals(chord)}, `,
              html('strong', {}, withAccidentals(roman)),
              ` in ${withAccidentals(key)}`,
              ...(rivals.length === 0
                ? []
                : [html('small', {}, ` also heard: ${withAccidentals(rivals.join(', '))}`)]),
            ),
          ),
        ),
        html(
          'div',
          {},
          html(
            'p',
            {},
            claims.length === 0
              ? 'No sentence about these bars is sure enough to offer.'
              : 'Claims that hold; press one to write it into the step at the cursor:',
          ),
          html(
            'div',
            { class: 'offers' },
            ...claims.map(sentence =>
              put(sentence, 'into the claims of the step, or at the cursor where a claim is awaited', () => {
                handlers.claim(sentence);
              }),
            ),
          ),
        ),
      );
    },
  };
}
