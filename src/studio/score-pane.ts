import { html, notationView } from '../player/index.js';
import type { NotationView } from '../player/index.js';
import type { Evidence } from '../claims/index.js';
import type { PageScore } from '../timeline/index.js';
import type { Analysed } from './checked.js';

export interface ScorePaneHandlers {
  /** Bars were chosen, as indexes into the bars of the score. */
  readonly chosen: (bars: readonly [number, number]) => void;
  readonly insert: (words: string) => void;
}

export interface ScorePane {
  readonly element: HTMLElement;
  readonly setScore: (score: PageScore | undefined) => void;
  readonly showAnalysis: (analysed: Analysed) => void;
  readonly showEvidence: (evidence: readonly Evidence[]) => void;
}

/** The score: a click chooses a bar, a click with Shift held all bars up to it; what stands there is told below. */
export function scorePane(handlers: ScorePaneHandlers): ScorePane {
  const sheet = html('div', {
    class: 'sheet music',
    role: 'group',
    tabindex: 0,
    'aria-label': 'Score: arrow keys choose a bar',
  });
  const told = html('div', { class: 'told', 'aria-live': 'polite' });
  const element = html('section', { class: 'pane score-pane', 'aria-label': 'Score' }, sheet, told);
  let score: PageScore | undefined;
  let view: NotationView | undefined;
  let bars: readonly [number, number] | undefined;
  let withShift = false;

  const choose = (bar: number, extend: boolean): void => {
    const from = bars?.[0] ?? bar;
    bars = extend ? [Math.min(from, bar), Math.max(from, bar)] : [bar, bar];
    view?.markChosen({ firstBar: bars[0], lastBar: bars[1] });
    handlers.chosen(bars);
  };
  sheet.addEventListener(
    'click',
    event => {
      withShift = event.shiftKey;
    },
    true,
  );
  sheet.addEventListener('keydown', event => {
    const step = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
    if (step === 0 || score === undefined) return;
    event.preventDefault();
    const at = event.shiftKey && step > 0 ? bars?.[1] : bars?.[0];
    choose(Math.max(0, Math.min(score.bars.length - 1, at === undefined ? 0 : at + step)), event.shiftKey);
  });
  new ResizeObserver(() => view?.layOut()).observe(sheet);

  const label = (bar: number): string => score?.bars[bar]?.label ?? '';
  return {
    element,
    setScore: next => {
      score = next;
      bars = undefined;
      told.replaceChildren();
      if (next === undefined) {
        view = undefined;
        sheet.replaceChildren(html('p', { class: 'quiet' }, 'The score that the lesson names stands here.'));
        return;
      }
      view = notationView(next, new Set(), [['chords', 'numerals', 'keys']], {
        pick: ({ bar }) => {
          choose(bar, withShift);
        },
        uncover: () => undefined,
      });
      sheet.replaceChildren(view.element);
      view.showWhole(true);
      view.showExcerpt({
        firstBar: 0,
        lastBar: next.bars.length - 1,
        layers: new Set(['chords', 'numerals', 'keys']),
        covered: new Set(),
      });
      view.layOut();
    },
    showAnalysis: ({ bars: [first, last], harmonies, claims }) => {
      const range = first === last ? label(first) : `${label(first)}-${label(last)}`;
      const put = (words: string, title: string): HTMLElement => {
        const button = html('button', { type: 'button', class: 'put', title }, words);
        button.addEventListener('click', () => {
          handlers.insert(words);
        });
        return button;
      };
      told.replaceChildren(
        html(
          'h2',
          {},
          first === last ? `Bar ${range}` : `Bars ${range}`,
          ' ',
          put(range, 'write the number at the cursor'),
        ),
        html(
          'ul',
          { class: 'harmonies' },
          ...harmonies.map(({ place, chord, roman, key, rivals }) =>
            html(
              'li',
              {},
              html('span', { class: 'place' }, place),
              ` ${chord}, `,
              html('strong', {}, roman),
              ` in ${key}`,
              ...(rivals.length === 0 ? [] : [html('small', {}, ` also heard: ${rivals.join(', ')}`)]),
            ),
          ),
        ),
        html(
          'p',
          {},
          claims.length === 0
            ? 'No sentence about these bars is sure enough to offer.'
            : 'Sentences that hold; press one to write it at the cursor:',
        ),
        html(
          'div',
          { class: 'offers' },
          ...claims.map(words => put(words, 'write this claim at the cursor')),
        ),
      );
    },
    showEvidence: evidence => view?.markEvidence(evidence),
  };
}
