import type { VerdictWord } from '../../claims/index.js';
import { isUnjudged } from '../../lesson/index.js';
import type { ReportedClaim } from '../check-report.js';
import { element } from './markup.js';
import type { Markup } from './markup.js';

/** What a report shows of a claim: its verdict, or that it got none. */
export type Outcome = VerdictWord | 'unjudged';

export const outcomeOf = ({ verdict }: ReportedClaim): Outcome =>
  isUnjudged(verdict.code) ? 'unjudged' : verdict.verdict;

const strokes: Readonly<Record<Outcome, string>> = {
  holds: 'M2.5 8.5l3.5 4 7.5-9',
  arguable: 'M2 9.5c2-4 4-4 6-1.5s4 2.5 6-1.5',
  undecided: 'M8 2.5a5.5 5.5 0 1 0 .01 0',
  fails: 'M3 3l10 10M13 3L3 13',
  unjudged: 'M3 8h10',
};

/** A small sign for an outcome, so that colour is never needed to tell them apart. */
export const verdictSign = (outcome: Outcome): Markup =>
  element(
    'svg',
    { class: 'sign', viewBox: '0 0 16 16', 'aria-hidden': 'true' },
    element('path', { d: strokes[outcome] }),
  );
