import { html, notationView } from '../player/index.js';
import type { NotationView } from '../player/index.js';
import type { Evidence } from '../claims/index.js';
import type { PageScore } from '../timeline/index.js';
import { barChoice } from './bar-choice.js';
import type { Bars } from './bar-choice.js';
import { barReport } from './bar-report.js';
import type { Analysed } from './checked.js';
import { barsText } from './put-bars.js';
import type { LabelledBars } from './put-bars.js';

export interface ScorePaneHandlers {
  /** Asks what stands in bars. */
  readonly analyse: (bars: Bars) => void;
  /** Bars were chosen with the pointer: they are written where the text awaits a bar. */
  readonly pointed: (bars: LabelledBars) => void;
  /** Writes words at the cursor. */
  readonly write: (words: string) => void;
  /** Writes a claim into the lesson. */
  readonly claim: (sentence: string) => void;
}

export interface ScorePane {
  readonly element: HTMLElement;
  readonly setScore: (score: PageScore | undefined) => void;
  readonly showAnalysis: (analysed: Analysed) => void;
  readonly showEvidence: (evidence: readonly Evidence[]) => void;
}

/** The score, in which bars are chosen; what stands there is told below. */
export function scorePane(handlers: ScorePaneHandlers): ScorePane {
  const sheet = html('div', {
    class: 'sheet music',
    role: 'group',
    tabindex: 0,
    'aria-label': 'Score: arrow keys choose a bar, with Shift several, Enter writes their number',
  });
  const report = barReport(handlers);
  let score: PageScore | undefined;
  let view: NotationView | undefined;
  let shown: Bars | undefined;

  const labels = ([first, last]: Bars): LabelledBars => ({
    first: score?.bars[first]?.label ?? '',
    last: score?.bars[last]?.label ?? '',
  });
  const choice = barChoice(sheet, {
    count: () => score?.bars.length ?? 0,
    barNear: (x, y) => view?.barNear(x, y),
    moved: (bars, head) => {
      shown = bars;
      view?.markChosen(
        bars === undefined ? undefined : { firstBar: bars[0], lastBar: bars[1], inView: head ?? false },
      );
      if (bars === undefined) report.clear();
    },
    chosen: (bars, how) => {
      handlers.analyse(bars);
      if (how === 'pointer') handlers.pointed(labels(bars));
    },
    entered: bars => {
      handlers.write(barsText(labels(bars)));
    },
  });
  /** Engraves for the present width; a long score takes some seconds, in which everything else goes on. */
  const layOut = async (): Promise<void> => {
    const own = view;
    if (own === undefined) return;
    sheet.ariaBusy = 'true';
    await own.layOutGently();
    if (own === view) sheet.ariaBusy = 'false';
  };
  new ResizeObserver(() => void layOut()).observe(sheet);

  return {
    element: html('section', { class: 'pane score-pane', 'aria-label': 'Score' }, sheet, report.element),
    setScore: next => {
      score = next;
      if (next === undefined) {
        view = undefined;
        sheet.ariaBusy = 'false';
        sheet.replaceChildren(html('p', { class: 'quiet' }, 'The score that the lesson names stands here.'));
      } else {
        // Bars are chosen on the sheet, whatever stands in them.
        const nothing = (): void => undefined;
        const layers = ['chords', 'numerals', 'keys'] as const;
        view = notationView(next, new Set(), [layers], { pick: nothing, uncover: nothing });
        sheet.replaceChildren(view.element);
        view.showWhole(true);
        view.showExcerpt({
          firstBar: 0,
          lastBar: next.bars.length - 1,
          layers: new Set(layers),
          covered: new Set(),
          readings: [],
        });
        void layOut();
      }
      choice.clear();
    },
    showAnalysis: analysed => {
      const { bars } = analysed;
      // The choice may have moved on meanwhile.
      if (shown?.[0] === bars[0] && shown[1] === bars[1]) report.show(labels(bars), analysed);
    },
    showEvidence: evidence => view?.markEvidence(evidence),
  };
}
