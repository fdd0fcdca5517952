import type { PlayStyle } from '../lesson/index.js';
import type { PageData } from '../timeline/index.js';
import { html } from './dom.js';
import { icon } from './icons.js';
import { barHeading } from './notation/in-words.js';

/** How closely the reader looks. */
export const levels = ['step', 'bar', 'note'] as const;
export type Level = (typeof levels)[number];
const levelNames: Readonly<Record<Level, string>> = { step: 'Steps', bar: 'Bars', note: 'Notes' };

/** What the reader looks at; indexes into steps, bars and notes. */
export interface Look {
  readonly level: Level;
  readonly step: number;
  readonly firstBar: number;
  readonly lastBar: number;
  readonly note?: number;
}

export interface CloserHandlers {
  readonly setLevel: (level: Level) => void;
  /** One step, bar or note further or back. */
  readonly move: (by: 1 | -1) => void;
  readonly setBars: (firstBar: number, lastBar: number) => void;
  readonly play: (as: PlayStyle) => void;
  readonly repeat: () => void;
  readonly close: () => void;
}

export interface CloserView {
  readonly element: HTMLElement;
  /** `words` tell what is looked at; `undefined` closes the view. */
  readonly show: (look: Look | undefined, words: readonly string[]) => void;
  /** Whether the chosen bars go round at the moment. */
  readonly setRepeating: (repeating: boolean) => void;
  readonly focus: () => void;
}

/** A strip under the score: what stands there in words, by step, bar or note, and ways to hear it. */
export function closerView(data: PageData, handlers: CloserHandlers): CloserView {
  const button = (label: string, press: () => void, attributes = {}): HTMLButtonElement => {
    const made = html('button', { type: 'button', ...attributes }, label);
    made.addEventListener('click', press);
    return made;
  };
  const levelInputs = levels.map(level => {
    const input = html('input', { type: 'radio', name: 'closer-level', value: level });
    input.addEventListener('change', () => {
      handlers.setLevel(level);
    });
    return input;
  });
  const levelChoice = html(
    'fieldset',
    { class: 'closer-levels' },
    html('legend', { class: 'visually-hidden' }, 'In words, one by one'),
    ...levelInputs.map((input, index) =>
      html('label', {}, input, html('span', {}, levelNames[levels[index] ?? 'step'])),
    ),
  );
  const back = button('', () => {
    handlers.move(-1);
  });
  const on = button('', () => {
    handlers.move(1);
  });
  back.append(icon('previous'), html('span', { class: 'visually-hidden' }, 'Before'));
  on.append(icon('next'), html('span', { class: 'visually-hidden' }, 'After'));

  const bars = data.scores[0]?.bars ?? [];
  const barSelect = (label: string, choose: (bar: number) => void): HTMLSelectElement => {
    const select = html(
      'select',
      { 'aria-label': label },
      ...bars.map((bar, index) => html('option', { value: index }, bar.label === '0' ? 'pickup' : bar.label)),
    );
    select.addEventListener('change', () => {
      choose(Number(select.value));
    });
    return select;
  };
  let shown: Look | undefined;
  const from = barSelect('From bar', bar => {
    handlers.setBars(bar, Math.max(bar, shown?.lastBar ?? bar));
  });
  const to = barSelect('To bar', bar => {
    handlers.setBars(Math.min(bar, shown?.firstBar ?? bar), bar);
  });

  const play = button('Play', () => {
    handlers.play('written');
  });
  const repeat = button('Repeat', handlers.repeat, { 'aria-pressed': 'false' });
  const stack = button('Stack', () => {
    handlers.play('stack');
  });
  const block = button('As chords', () => {
    handlers.play('block');
  });
  const words = html('div', { class: 'closer-words', 'aria-live': 'polite' });
  const close = button('Close', handlers.close, { class: 'closer-close' });

  const element = html(
    'section',
    { class: 'closer', 'aria-label': 'Look closer' },
    html(
      'div',
      { class: 'closer-row' },
      levelChoice,
      html('div', { class: 'closer-steps' }, back, on),
      close,
    ),
    words,
    html(
      'div',
      { class: 'closer-row' },
      html('span', { class: 'closer-bars' }, 'Bars ', from, ' to ', to),
      play,
      repeat,
      stack,
      block,
    ),
  );
  element.hidden = true;
  element.addEventListener('keydown', event => {
    if (event.key === 'Escape') handlers.close();
  });

  return {
    element,
    show: (look, told) => {
      shown = look;
      element.hidden = look === undefined;
      if (look === undefined) return;
      for (const [index, input] of levelInputs.entries()) input.checked = levels[index] === look.level;
      from.value = String(look.firstBar);
      to.value = String(look.lastBar);
      const heading =
        look.level === 'step'
          ? `Step ${look.step + 1}: ${data.steps[look.step]?.title ?? ''}`
          : barHeading(bars[look.firstBar]?.label ?? '');
      words.replaceChildren(
        ...(look.level === 'note' ? [] : [html('p', { class: 'closer-head' }, heading)]),
        ...told.map(line => html('p', {}, line)),
      );
      words.scrollTop = 0;
      // Scrolled by keyboard, but no stop on the way where there is nothing to scroll.
      if (words.scrollHeight > words.clientHeight) words.tabIndex = 0;
      else words.removeAttribute('tabindex');
    },
    setRepeating: repeating => {
      if (String(repeating) === repeat.getAttribute('aria-pressed')) return;
      repeat.setAttribute('aria-pressed', String(repeating));
      repeat.textContent = repeating ? 'Stop' : 'Repeat';
    },
    focus: () => {
      levelInputs.find(input => input.checked)?.focus();
    },
  };
}
