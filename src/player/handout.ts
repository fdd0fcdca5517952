import type { Layer } from '../lesson/index.js';
import type { PageClaim, PageData, PageStep } from '../timeline/index.js';
import { html } from './dom.js';
import { draftWords } from './draft-notice.js';
import { harmoniesOf } from './labels.js';
import { barsText, contradictedClaims, withAccidentals } from '../timeline/index.js';
import { notationView } from './notation/notation-view.js';
import { narration } from './narration.js';

/** For the student: blanks under the staff and room for answers. The key: labels, reasons and answers. */
export type HandoutKind = 'handout' | 'key';

/** Width of the music on paper, in CSS pixels: 180 mm, which both A4 and Letter leave. */
const paperWidth = 680;

/** Labels of the key, and those that a student finds blanks for: what the step is about. */
const layersOf = (step: PageStep, kind: HandoutKind): ReadonlySet<Layer> =>
  new Set<Layer>(kind === 'key' ? [...step.show, 'chords', 'numerals'] : step.show);

/** `the pickup and bars 1–4` of a step, by the labels of its bars. */
function barsOf(data: PageData, { firstBar, lastBar }: PageStep): string {
  const bars = data.scores[0]?.bars ?? [];
  const [first = '', last = ''] = [bars[firstBar]?.label, bars[lastBar]?.label];
  return barsText({ first, last });
}

function claimItem(data: PageData, claim: PageClaim): HTMLElement {
  const number = data.claims.indexOf(claim) + 1;
  const isTold = claim.reason.includes('set aside');
  const evidence = claim.evidence
    .filter(({ role }) => role !== 'supports' && !(isTold && role === 'set aside'))
    .map(({ role, pitch, bar, why }) => {
      const place = bar === '' ? '' : ` (${bar === '0' ? 'pickup' : `bar ${bar}`})`;
      return `${role}: ${withAccidentals(pitch)}${place}${why === '' ? '' : `, ${why}`}`;
    });
  return html(
    'li',
    { value: number },
    html('strong', {}, withAccidentals(claim.text)),
    html('em', {}, ` ${claim.verdict}: `),
    withAccidentals(claim.reason),
    evidence.length === 0 ? '' : ` (${evidence.join('; ')})`,
    claim.nearest === undefined ? '' : ` What the notes say: ${withAccidentals(claim.nearest)}.`,
    claim.accepted === undefined ? '' : ` The author keeps it: ${claim.accepted}`,
  );
}

/** Paths of claims to their numbers, which are those of the check report: the order of the lesson, from 1. */
const numbersOf = (data: PageData): ReadonlyMap<string, number> =>
  new Map(data.claims.map((claim, index) => [claim.path, index + 1]));

function keyWords(data: PageData, step: PageStep): readonly HTMLElement[] {
  const numbers = numbersOf(data);
  const contradicted = new Set(contradictedClaims(data).map(claim => data.claims.indexOf(claim) + 1));
  const told: number[] = [...step.claims.map(at => at + 1)];
  const blocks = step.script.flatMap((action): readonly HTMLElement[] => {
    if (action.kind === 'ask') {
      const because = action.because === undefined ? 0 : action.because + 1;
      const isProved = because > 0 && !contradicted.has(because);
      if (isProved) told.push(because);
      const proof = isProved ? ` [${because}]` : '';
      return [html('p', {}, html('strong', {}, action.question), ` ${action.answer}${proof}`)];
    }
    if (action.kind !== 'say') return [];
    const { blocks: words, claims } = narration(action.html, action.text, []);
    for (const { path, element } of claims) {
      const number = numbers.get(path);
      if (number === undefined || contradicted.has(number)) continue;
      told.push(number);
      element.append(html('sup', {}, String(number)));
    }
    return words;
  });
  const claims = [...new Set(told)]
    .filter(number => !contradicted.has(number))
    .sort((a, b) => a - b)
    .flatMap(number => data.claims[number - 1] ?? []);
  return [...blocks, html('ol', { class: 'handout-claims' }, ...claims.map(claim => claimItem(data, claim)))];
}

function studentWords(step: PageStep): readonly HTMLElement[] {
  return step.script.flatMap(action => {
    if (action.kind !== 'ask') return [];
    return [
      html(
        'div',
        { class: 'handout-question' },
        html('p', {}, html('strong', {}, action.question)),
        action.choices.length === 0
          ? html('p', { class: 'handout-line' })
          : html('ul', {}, ...action.choices.map(choice => html('li', {}, choice))),
      ),
    ];
  });
}

/**
 * The lesson on paper, step after step. `bench` is an element of the document in which the score is engraved; the music is copied out of it
 * step by step.
 */
export function handout(data: PageData, kind: HandoutKind, bench: HTMLElement): HTMLElement {
  const [score] = data.scores;
  const element = html('div', { class: `handout ${kind}` });
  if (score === undefined) return element;
  const stage = html('div', { class: 'handout-bench' });
  stage.style.width = `${paperWidth}px`;
  bench.append(stage);
  const stepStarts = new Set(data.steps.map(({ firstBar }) => firstBar));
  const view = notationView(score, stepStarts, [], { pick: () => undefined, uncover: () => undefined });
  stage.append(view.element);
  view.showWhole(false);
  view.layOut();
  const draft = draftWords(data);
  const title = html(
    'header',
    {},
    html('h1', {}, data.title),
    html(
      'p',
      {},
      [score.title, score.composer].filter(part => part !== '' && part !== data.title).join(' · '),
    ),
    ...(draft === undefined ? [] : [html('p', {}, html('strong', {}, 'Draft: '), draft)]),
    ...(kind === 'handout' ? [html('p', { class: 'handout-name' }, 'Name')] : []),
  );
  for (const [index, step] of data.steps.entries()) {
    const covered = kind === 'handout' ? harmoniesOf(score, step) : [];
    view.showExcerpt({
      firstBar: step.firstBar,
      lastBar: step.lastBar,
      layers: layersOf(step, kind),
      covered: new Set(covered),
      readings: step.readings,
    });
    const systems = [...view.element.querySelectorAll('.system:not([hidden])')].map(system =>
      system.cloneNode(true),
    );
    element.append(
      html(
        'section',
        { class: 'handout-step' },
        ...(index === 0 ? [title] : []),
        html('h2', {}, `${index + 1}. ${step.title} `, html('span', {}, barsOf(data, step))),
        html('div', { class: 'score' }, ...systems),
        ...(kind === 'key' ? keyWords(data, step) : studentWords(step)),
      ),
    );
  }
  stage.remove();
  return element;
}

export interface Printing {
  /** Opens the browser's print dialogue with one of the two. */
  readonly print: (kind: HandoutKind) => void;
}

/** Makes the paper when the browser is about to print, whoever asked for it, and takes it away afterwards. */
export function printing(data: PageData): Printing {
  let kind: HandoutKind = 'handout';
  let paper: HTMLElement | undefined;
  const clear = (): void => {
    paper?.remove();
    paper = undefined;
  };
  addEventListener('beforeprint', () => {
    clear();
    // Not within the page, which is not laid out while it is printed.
    paper = handout(data, kind, document.body);
    document.body.append(paper);
  });
  addEventListener('afterprint', clear);
  return {
    print: next => {
      kind = next;
      print();
    },
  };
}
