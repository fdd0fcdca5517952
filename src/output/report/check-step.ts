import type { Action, BarRange, Step } from '../../lesson/index.js';
import type { Score } from '../../score/index.js';
import { barsText } from '../../timeline/index.js';
import type { Subject } from '../check-report.js';
import { claimNote } from './claim-note.js';
import type { Passage } from './excerpts.js';
import { element, text } from './markup.js';
import type { Markup } from './markup.js';
import { evidenceMarks } from './marks.js';
import type { NumberedClaim } from './marks.js';
import { linkedNarration } from './narration.js';
import type { PlacedSystem } from './placed-system.js';
import { marksBottom, systemSvg, systemWidth } from './system-svg.js';

/** A step with its claims and the bars that it shows. */
export interface DrawnStep {
  readonly step: Step;
  readonly number: number;
  readonly claims: readonly NumberedClaim[];
  readonly passage: Passage;
}

/** More lines of the score than this stand above the words, in two columns. */
const mostBeside = 4;

/** A few bars are set so much larger than a full line at most: the staves of all steps look alike. */
const mostEnlarged = 1.15;

/** So many bars more are shown where a claim of a step speaks of bars around it. */
const mostAround = 8;

/** The steps of a lesson as the report shows them. */
export const stepsOf = ({ lesson, score }: Subject, claims: readonly NumberedClaim[]): readonly DrawnStep[] =>
  lesson.steps.map((step, index) => {
    const own = claims.filter(({ entry }) => entry.step === index);
    const passage =
      score === undefined
        ? { firstBar: 0, lastBar: 0 }
        : withEvidence(score, passageOf(score, step.bars), own);
    return { step, number: index + 1, claims: own, passage };
  });

/** The bars of a step and those of the notes that decide its claims, where these are near. */
function withEvidence(score: Score, passage: Passage, claims: readonly NumberedClaim[]): Passage {
  const bars = claims.flatMap(({ verdict }) =>
    verdict.evidence.flatMap(({ note }) => (note === undefined ? [] : (score.notes[note]?.bar ?? []))),
  );
  const firstBar = Math.min(passage.firstBar, ...bars);
  const lastBar = Math.max(passage.lastBar, ...bars);
  const more = passage.firstBar - firstBar + (lastBar - passage.lastBar);
  return more > mostAround ? passage : { firstBar, lastBar };
}

/** The bars of a step by their indexes; a plain number means every bar that carries it. */
function passageOf({ bars }: Score, range: BarRange | undefined): Passage {
  const all = { firstBar: 0, lastBar: bars.length - 1 };
  if (range === undefined) return all;
  const is =
    (label: string) =>
    (bar: Score['bars'][number]): boolean =>
      bar.label === label || String(bar.number) === label;
  const firstBar = bars.findIndex(is(range.first));
  const lastBar = bars.findLastIndex(is(range.last));
  return firstBar < 0 || lastBar < firstBar ? all : { firstBar, lastBar };
}

/** A step: its bars with the marks of its claims, its words, and every claim with what the notes say to it. */
export function stepSection(
  { score, lesson }: Subject,
  { step, number, claims }: DrawnStep,
  systems: readonly PlacedSystem[],
  share: (markup: Markup) => Markup,
  widest: number,
): Markup {
  const filling = Math.max(widest / mostEnlarged, ...systems.map(systemWidth));
  const music =
    score === undefined || systems.length === 0
      ? element(
          'p',
          { class: 'soft' },
          score === undefined ? 'The score could not be read.' : 'These bars cannot be drawn.',
        )
      : systems
          .map(system =>
            systemSvg(score, system, share(system.markup), filling, {
              marks: evidenceMarks(system, claims, marksBottom(system)),
            }),
          )
          .join('');
  const words = element(
    'div',
    { class: 'words' },
    ...step.script.map(action => actionBlock(action, claims)),
    claims.length === 0 ? '' : element('ol', { class: 'claims' }, ...claims.map(claimNote)),
  );
  return element(
    'section',
    { class: 'step', id: `step-${String(number)}` },
    element(
      'header',
      {},
      element(
        'h2',
        {},
        element('span', { class: 'count' }, String(number)),
        text(step.title === '' ? lesson.title : step.title),
      ),
      step.bars === undefined ? '' : element('p', { class: 'soft' }, text(barsText(step.bars))),
    ),
    element(
      'div',
      { class: systems.length > mostBeside ? 'beside long' : 'beside' },
      element('div', { class: 'music' }, music),
      words,
    ),
  );
}

function actionBlock(action: Action, claims: readonly NumberedClaim[]): Markup {
  switch (action.kind) {
    case 'say':
      return element('div', { class: 'narration' }, linkedNarration(action.html, claims));
    case 'play': {
      const version = action.score === undefined ? '' : ` of ${action.score.value}`;
      const as = action.as === 'written' ? '' : `, ${action.as}`;
      const voice = action.voice === undefined ? '' : `, voice ${action.voice.value} alone`;
      return element('p', { class: 'played' }, text(`plays ${barsText(action.bars)}${version}${voice}${as}`));
    }
    case 'ask': {
      const because = claims.find(({ entry }) => entry.path === action.because?.path);
      return element(
        'div',
        { class: 'question' },
        element('p', {}, text(action.question)),
        action.choices.length === 0 ? '' : element('p', { class: 'soft' }, text(action.choices.join(' · '))),
        element(
          'p',
          {},
          element('i', { class: 'soft' }, 'answer '),
          text(action.answer),
          because === undefined ? '' : claimLink(because),
        ),
      );
    }
    case 'wait':
      return '';
  }
}

const claimLink = ({ number }: NumberedClaim): Markup =>
  element('a', { class: 'ref', href: `#claim-${String(number)}` }, String(number));
