import type { PageAction, PageData, PageEvidence, PageStep } from '../timeline/index.js';
import { claimMark, sentence } from './claim-note.js';
import { html } from './dom.js';
import { clockTime, spokenTime } from './durations.js';
import { icon } from './icons.js';
import { barInWords } from './notation/in-words.js';
import { barsText, contradictedClaims, withAccidentals } from '../timeline/index.js';
import { narration } from './narration.js';
import { reveal } from './reveal.js';
import { questionView, type AskAction, type QuestionParts, type QuestionView } from './question-view.js';

/** What a step asks of the lesson. */
export interface StepHandlers {
  readonly goTo: (step: number) => void;
  /** Plays one action, or the whole step, and no further. */
  readonly playAction: (step: number, action: number) => void;
  readonly playStep: (step: number) => void;
  /** Plays on from a moment of the lesson. */
  readonly playFrom: (at: number) => void;
  /** How a question is judged, what was answered before, and who hears of it. */
  readonly question: (step: number, ask: AskAction) => QuestionParts;
  readonly showEvidence: (evidence: readonly PageEvidence[]) => void;
}

export interface StepView {
  readonly element: HTMLElement;
  readonly setCurrent: (current: boolean) => void;
  readonly setHeard: (heard: boolean) => void;
  /** Scrolls so that the step can be read from its title on. */
  readonly bringIntoView: () => void;
  /** Marks the spoken word of a say; nothing where `say` is absent or of another step. */
  readonly markWord: (say: string | undefined, word: number | undefined) => void;
  readonly setWaiting: (ask: string | undefined) => void;
  /** Keeps back what stands behind a question that is still open. */
  readonly keepBack: (isOpen: (ask: string) => boolean) => void;
  /** Its questions as if they had never been answered. */
  readonly reset: () => void;
}

const styleNames = {
  written: '',
  stack: ', stacked',
  block: ', as block chords',
  arpeggio: ', note by note',
} as const;

function barsInWords(bars: string): string {
  const [first = '', last = first] = bars.split('-');
  return barsText({ first, last });
}

/** @param voice the one that is heard, in words; every voice where absent */
function playLine(
  action: Extract<PageAction, { kind: 'play' }>,
  voice: string | undefined,
  play: () => void,
): HTMLElement {
  const alone = voice === undefined ? '' : `, ${voice} alone`;
  const tempo = action.tempo === 100 ? '' : ` at ${action.tempo} % of the tempo`;
  const button = html(
    'button',
    { type: 'button', class: 'play-line' },
    icon('play'),
    ` Play ${barsInWords(action.bars)}${alone}${styleNames[action.as]}${tempo}`,
  );
  button.addEventListener('click', play);
  return button;
}

/** The one voice that an action of a step plays, in words. */
function voiceOf({ timeline }: PageData, step: number, action: number): string | undefined {
  const passage = timeline.events.find(
    event => event.kind === 'passage' && event.step === step && event.action === action,
  );
  return passage?.kind === 'passage' ? passage.voiceName : undefined;
}

/** The step's bars in words; made when it is opened, because it is long. */
function inWords(data: PageData, step: PageStep): HTMLElement {
  const [score] = data.scores;
  const details = html('details', { class: 'in-words' }, html('summary', {}, 'The notes in words'));
  details.addEventListener('toggle', () => {
    if (!details.open || details.children.length > 1 || score === undefined) return;
    for (let bar = step.firstBar; bar <= step.lastBar; bar++) {
      const label = score.bars[bar]?.label ?? '';
      details.append(
        html('h3', {}, label === '0' ? 'Pickup' : `Bar ${label}`),
        html('ul', {}, ...barInWords(score, bar).map(line => html('li', {}, line))),
      );
    }
  });
  return details;
}

/** One step: its number, title and length, and, while it is the current one, its words, examples and questions. */
export function stepView(data: PageData, index: number, handlers: StepHandlers): StepView {
  const step = data.steps[index];
  const times = data.timeline.steps[index];
  if (step === undefined || times === undefined) throw new RangeError(`no step ${index}`);
  const seconds = times.end - times.start;
  const words = new Map<string, readonly (readonly HTMLElement[])[]>();
  const questions = new Map<string, QuestionView>();
  const contradicted = new Set(contradictedClaims(data));
  const byPath = new Map(data.claims.map(claim => [claim.path, claim]));
  const bodyId = `step-${index + 1}-body`;
  const body = html('div', { class: 'step-body', id: bodyId });
  /** What stands in the body, and the action that it belongs to; what belongs to the step as a whole comes after all actions. */
  const parts: { readonly action: number; readonly element: HTMLElement }[] = [];
  const add = (action: number, ...elements: readonly HTMLElement[]): void => {
    parts.push(...elements.map(element => ({ action, element })));
    body.append(...elements);
  };

  const addMark = (path: string, behind: HTMLElement, blockOf: () => Element): void => {
    const claim = byPath.get(path);
    if (claim === undefined) return;
    if (contradicted.has(claim)) {
      behind.classList.remove('claim');
      return;
    }
    behind.classList.add(claim.verdict);
    // The mark hangs on the last word, so that no line begins with it.
    const lastWord = [...behind.querySelectorAll('.word')].at(-1);
    const tail = html('span', { class: 'claim-tail' });
    if (lastWord === undefined) behind.append(tail);
    else lastWord.replaceWith(tail);
    if (lastWord !== undefined) tail.append(lastWord);
    tail.append(
      claimMark(claim, blockOf, open => {
        handlers.showEvidence(open ? claim.evidence : []);
      }),
    );
  };

  for (const [at, action] of step.script.entries()) {
    switch (action.kind) {
      case 'say': {
        const speech = data.timeline.events.find(event => event.kind === 'speech' && event.say === action.id);
        const places = speech?.kind === 'speech' ? speech.words : [];
        const told = narration(action.html, action.text, places);
        words.set(action.id, told.words);
        for (const [word, elements] of told.words.entries())
          for (const element of elements)
            element.addEventListener('click', () => {
              const at = places[word]?.start;
              if (at !== undefined) handlers.playFrom(at);
            });
        for (const { path, element } of told.claims)
          addMark(path, element, () => element.closest('p, li, blockquote') ?? element);
        add(at, ...told.blocks);
        break;
      }
      case 'play':
        add(
          at,
          playLine(action, voiceOf(data, index, at), () => {
            handlers.playAction(index, at);
          }),
        );
        break;
      case 'ask': {
        const view = questionView(action, handlers.question(index, action));
        questions.set(action.id, view);
        add(at, view.element);
        break;
      }
      case 'wait':
        break;
    }
  }
  const loose = step.claims.flatMap(at => data.claims[at] ?? []).filter(claim => !contradicted.has(claim));
  if (loose.length > 0) {
    const list = html('ul', { class: 'step-claims', 'aria-label': 'Also checked in this step' });
    for (const claim of loose) {
      const item = html('li', {}, `${withAccidentals(claim.text)} `);
      addMark(claim.path, item, () => item.querySelector('.claim-tail') ?? item);
      // What the notes do not say outright is no statement of the lesson without the author's word on it.
      if (claim.accepted !== undefined) item.append(html('p', {}, sentence(claim.accepted)));
      list.append(item);
    }
    add(step.script.length, list);
  }
  const keptBack = html(
    'p',
    { class: 'about' },
    'The rest of this step is shown once you have answered, or gone on.',
  );
  body.append(keptBack);
  const playStep = html(
    'button',
    { type: 'button', class: 'play-line' },
    icon('play'),
    ' Play this step alone',
  );
  playStep.addEventListener('click', () => {
    handlers.playStep(index);
  });
  body.append(html('div', { class: 'step-foot' }, playStep, inWords(data, step)));

  const number = html('span', { class: 'step-number', 'aria-hidden': 'true' }, String(index + 1));
  const heardWord = html('span', { class: 'visually-hidden' });
  const head = html(
    'button',
    { type: 'button', class: 'step-head', 'aria-controls': bodyId },
    number,
    html(
      'span',
      { class: 'step-title' },
      html('span', { class: 'visually-hidden' }, `Step ${index + 1}: `),
      step.title,
    ),
    html(
      'span',
      { class: 'step-time' },
      html('span', { 'aria-hidden': 'true' }, clockTime(seconds)),
      html('span', { class: 'visually-hidden' }, `, ${spokenTime(seconds)}`),
      heardWord,
    ),
  );
  head.addEventListener('click', () => {
    handlers.goTo(index);
  });
  const element = html('li', { class: 'step' }, html('h2', {}, head), body);
  let marked: readonly HTMLElement[] = [];

  return {
    element,
    setCurrent: current => {
      element.classList.toggle('current', current);
      if (current) head.setAttribute('aria-current', 'step');
      else head.removeAttribute('aria-current');
      head.setAttribute('aria-expanded', String(current));
      body.hidden = !current;
    },
    setHeard: heard => {
      element.classList.toggle('heard', heard);
      heardWord.textContent = heard ? ', heard' : '';
    },
    bringIntoView: () => {
      const scroller = element.closest('.words');
      if (scroller !== null) reveal(scroller, element);
    },
    markWord: (say, word) => {
      const next = say === undefined || word === undefined ? [] : (words.get(say)?.[word] ?? []);
      if (next[0] === marked[0]) return;
      for (const old of marked) old.classList.remove('spoken');
      for (const now of next) now.classList.add('spoken');
      marked = next;
    },
    setWaiting: ask => {
      for (const [id, view] of questions) view.setWaiting(id === ask);
    },
    keepBack: isOpen => {
      const question = step.script.findIndex(action => action.kind === 'ask' && isOpen(action.id));
      // The words behind a question tell its answer.
      const from = question < 0 ? Infinity : question + 1;
      for (const { action, element: part } of parts) part.hidden = action >= from;
      keptBack.hidden = parts.every(({ action }) => action < from);
    },
    reset: () => {
      for (const view of questions.values()) view.reset();
    },
  };
}
