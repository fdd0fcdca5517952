import { html } from '../../player/index.js';
import type { Answers, SpokenPart } from '../../bridge/index.js';
import { stateOf } from './part-state.js';
import type { PartState } from './part-state.js';
import { clock, inSeconds } from './seconds.js';

export interface TextList {
  readonly element: HTMLElement;
  readonly show: (takes: Answers['takes'], chosen: string | undefined) => void;
}

/** Who speaks a text, in a word or two. */
function stateWords(part: SpokenPart, state: PartState): string {
  switch (state.kind) {
    case 'taken':
      return inSeconds(part.seconds);
    case 'stale':
      return `stale, ${inSeconds(part.seconds)}`;
    case 'trouble':
      return 'cannot be read';
    case 'paragraphs':
      return `${String(state.taken)} of ${String(state.all)} parts${state.stale === 0 ? '' : ', stale'}`;
    case 'voice':
      return 'the voice';
  }
}

const beginning = (words: string): string => words.replace(/\s+/gu, ' ').trim();

/** Everything that is read aloud, step by step, with who speaks it. */
export function textList(choose: (id: string) => void): TextList {
  const element = html('nav', { class: 'texts', 'aria-label': 'Texts' });
  /** Ids in their order, to tell a list that only changes its words from one that is built anew. */
  let built = '';
  let rows = new Map<string, { button: HTMLElement; words: HTMLElement; state: HTMLElement }>();

  const build = ({ steps, parts }: Answers['takes']): void => {
    rows = new Map();
    element.replaceChildren(
      ...steps.flatMap((title, step) => {
        const own = parts.filter(part => part.step === step);
        if (own.length === 0) return [];
        const items = own.map(({ id, paragraph }) => {
          const words = html('span', { class: 'beginning' });
          const state = html('span', { class: 'state' });
          const button = html(
            'button',
            { type: 'button', class: paragraph === undefined ? 'text' : 'text is-paragraph' },
            html('span', { class: 'id' }, id.replace('.answer', ' answer')),
            words,
            state,
          );
          button.addEventListener('click', () => {
            choose(id);
          });
          rows.set(id, { button, words, state });
          return html('li', {}, button);
        });
        return [html('h3', {}, `${String(step + 1)}. ${title}`), html('ul', {}, ...items)];
      }),
    );
  };

  return {
    element,
    show: (takes, chosen) => {
      const order = JSON.stringify([takes.steps, takes.parts.map(({ id, step }) => [id, step])]);
      if (order !== built) build(takes);
      built = order;
      for (const part of takes.parts) {
        const row = rows.get(part.id);
        if (row === undefined) continue;
        const state = stateOf(part, takes.parts);
        row.words.textContent = beginning(part.words);
        row.state.textContent = stateWords(part, state);
        row.state.dataset['kind'] = state.kind;
        row.button.title = part.start === undefined ? '' : `heard at ${clock(part.start)}`;
        if (part.id === chosen) row.button.setAttribute('aria-current', 'true');
        else row.button.removeAttribute('aria-current');
      }
    },
  };
}
