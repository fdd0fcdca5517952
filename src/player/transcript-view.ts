import type { PageData, SpeechEvent, TimelineStep } from '../timeline/index.js';
import { passageText } from '../timeline/index.js';
import { html, setText } from './dom.js';
import { clockTime, spokenTime } from './durations.js';
import { reveal } from './reveal.js';

export interface TranscriptView {
  readonly element: HTMLElement;
  /** Writes the lines when they are first wanted; there are many, and the page is to open at once. */
  readonly fill: () => void;
  /** Marks the word that is spoken and brings its line into view while `follow` says so. */
  readonly mark: (say: string | undefined, word: number | undefined, follow: boolean) => void;
  /** Keeps back what stands behind a question that is still open. */
  readonly keepBack: (isOpen: (ask: string) => boolean) => void;
}

interface Line {
  readonly element: HTMLElement;
  readonly text: string;
  readonly step: number;
  readonly start: number;
  readonly say?: string;
  readonly words: readonly HTMLElement[];
  readonly places: SpeechEvent['words'];
}

/** For searching: case, the marks over letters and the kind of dash do not matter. The length stays, so that places do. */
const plain = (text: string): string =>
  [...text.toLowerCase().replaceAll('–', '-')]
    .map(letter => letter.normalize('NFD').charAt(0) || letter)
    .join('');

/** The parts of `text` that are words of the speech, as elements, with what stands between them as text. */
function wordElements({ text, words }: SpeechEvent): {
  nodes: (HTMLElement | string)[];
  spans: HTMLElement[];
} {
  const nodes: (HTMLElement | string)[] = [];
  const spans: HTMLElement[] = [];
  let at = 0;
  for (const { from, to } of words) {
    const span = html('span', { class: 'word' }, text.slice(from, to));
    nodes.push(text.slice(at, from), span);
    spans.push(span);
    at = to;
  }
  nodes.push(text.slice(at));
  return { nodes, spans };
}

/** All that is said and played, line by line: it can be searched, and every line and word is a place to go on from. */
export function transcriptView(data: PageData, playFrom: (at: number) => void): TranscriptView {
  const { timeline } = data;
  const lines: Line[] = [];

  const line = (start: number, end: number, content: readonly (Node | string)[]): HTMLElement => {
    const jump = html(
      'button',
      { type: 'button', class: 'jump' },
      html('span', { 'aria-hidden': 'true' }, clockTime(start)),
      html('span', { class: 'visually-hidden' }, `Play from ${spokenTime(start)}`),
    );
    jump.addEventListener('click', () => {
      playFrom(start);
    });
    return html('li', { 'data-end': end }, jump, html('p', {}, ...content));
  };

  const sectionOf = (step: TimelineStep): HTMLElement => {
    const items = timeline.events.flatMap((event): HTMLElement[] => {
      if (event.step !== step.index) return [];
      if (event.kind === 'passage') {
        const text = `[${passageText(event)}]`;
        const element = line(event.start, event.end, [text]);
        element.classList.add('played');
        lines.push({ element, text, step: event.step, start: event.start, words: [], places: [] });
        return [element];
      }
      if (event.kind !== 'speech') return [];
      const { nodes, spans } = wordElements(event);
      const element = line(event.start, event.end, nodes);
      for (const [index, span] of spans.entries())
        span.addEventListener('click', () => {
          const word = event.words[index];
          if (word !== undefined) playFrom(word.start);
        });
      lines.push({
        element,
        text: event.text,
        step: event.step,
        start: event.start,
        say: event.say,
        words: spans,
        places: event.words,
      });
      return [element];
    });
    return html(
      'section',
      {},
      html('h2', {}, `${step.index + 1}. ${step.title}`),
      html('ol', { class: 'transcript-lines' }, ...items),
    );
  };

  let lists: readonly HTMLElement[] = [];
  let isOpen: (ask: string) => boolean = () => false;
  const input = html('input', { type: 'search', autocomplete: 'off', spellcheck: 'false' });
  const found = html('p', { class: 'about', role: 'status' });
  const search = (): void => {
    const wanted = plain(input.value.trim());
    // The words behind a question tell its answer.
    const open = timeline.events.filter(event => event.kind === 'question' && isOpen(event.ask));
    let hits = 0;
    for (const { element, text, step, start, words, places } of lines) {
      if (open.some(question => question.step === step && start >= question.start)) {
        element.hidden = true;
        continue;
      }
      const here = plain(text);
      const ranges: number[] = [];
      for (let at = wanted === '' ? -1 : here.indexOf(wanted); at >= 0; at = here.indexOf(wanted, at + 1))
        ranges.push(at);
      hits += ranges.length;
      element.hidden = wanted !== '' && ranges.length === 0;
      for (const [index, word] of words.entries()) {
        const { from, to } = places[index] ?? { from: 0, to: 0 };
        word.classList.toggle(
          'found',
          ranges.some(at => at < to && from < at + wanted.length),
        );
      }
    }
    for (const list of lists) list.hidden = list.querySelector('li:not([hidden])') === null;
    setText(found, wanted === '' ? '' : hits === 1 ? '1 place' : `${hits} places`);
  };
  input.addEventListener('input', search);

  const element = html(
    'div',
    { class: 'transcript' },
    html('label', { class: 'transcript-search' }, html('span', {}, 'Search the words'), input),
    found,
  );
  let spoken: HTMLElement | undefined;
  return {
    element,
    fill: () => {
      if (lists.length > 0) return;
      lists = timeline.steps.map(sectionOf);
      element.append(...lists);
      search();
    },
    keepBack: open => {
      isOpen = open;
      search();
    },
    mark: (say, word, follow) => {
      const at = say === undefined ? undefined : lines.find(one => one.say === say);
      const next = word === undefined ? undefined : at?.words[word];
      if (next === spoken) return;
      const sameLine = at !== undefined && spoken !== undefined && at.element.contains(spoken);
      spoken?.classList.remove('spoken');
      next?.classList.add('spoken');
      spoken = next;
      const scroller = element.closest('.words');
      if (follow && !sameLine && at !== undefined && scroller !== null && element.offsetParent !== null)
        reveal(scroller, at.element);
    },
  };
}
