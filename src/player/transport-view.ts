import type { PageData } from '../timeline/index.js';
import { html } from './dom.js';
import { clockTime, spokenTime } from './durations.js';
import { icon } from './icons.js';

export interface TransportHandlers {
  readonly toggle: () => void;
  readonly previous: () => void;
  readonly next: () => void;
  /** The current step from its start, and no further. */
  readonly again: () => void;
  readonly seek: (to: number) => void;
}

export interface TransportView {
  readonly element: HTMLElement;
  readonly update: (at: number, step: number, playing: boolean) => void;
}

/** Play, pause, the steps before and after, and the place in the lesson; `beside` stand at the end of the same row. */
export function transportView(
  data: PageData,
  handlers: TransportHandlers,
  beside: readonly HTMLElement[],
): TransportView {
  const { timeline } = data;
  const button = (name: string, label: string, press: () => void): HTMLButtonElement => {
    const made = html(
      'button',
      { type: 'button', class: `transport-${name}` },
      html('span', { class: 'button-label' }, label),
    );
    made.addEventListener('click', press);
    return made;
  };
  const previous = button('previous', 'Previous step', handlers.previous);
  previous.prepend(icon('previous'));
  const next = button('next', 'Next step', handlers.next);
  next.prepend(icon('next'));
  const again = button('again', 'This step again', handlers.again);
  again.prepend(icon('again'));
  const play = button('play', 'Play', handlers.toggle);
  const label = play.querySelector('.button-label') ?? play;
  const shown = { play: icon('play'), pause: icon('pause') };
  play.prepend(shown.play);

  const slider = html('input', {
    type: 'range',
    class: 'place',
    min: 0,
    max: Math.ceil(timeline.seconds),
    step: 1,
    value: 0,
    'aria-label': 'Place in the lesson',
  });
  slider.addEventListener('input', () => {
    handlers.seek(Number(slider.value));
  });
  const parts = timeline.steps.map(step => {
    const part = html('span', { class: 'part' });
    part.style.flexGrow = String(Math.max(0.001, step.end - step.start));
    return part;
  });
  const line = html('div', { class: 'line-of-steps', 'aria-hidden': 'true' }, ...parts);
  const time = html('p', { class: 'time' });
  const of = clockTime(timeline.seconds);
  let shownSecond = -1;
  let shownStep = -1;

  return {
    element: html(
      'div',
      { class: 'transport', role: 'group', 'aria-label': 'Playing the lesson' },
      html('div', { class: 'place-row' }, html('div', { class: 'place-box' }, line, slider), time),
      html(
        'div',
        { class: 'buttons' },
        previous,
        play,
        next,
        again,
        html('div', { class: 'beside' }, ...beside),
      ),
    ),
    update: (at, step, playing) => {
      const wanted = playing ? 'Pause' : 'Play';
      if (label.textContent !== wanted) {
        label.textContent = wanted;
        play.firstElementChild?.replaceWith(playing ? shown.pause : shown.play);
      }
      if (step !== shownStep) {
        shownStep = step;
        for (const [index, part] of parts.entries()) part.classList.toggle('current', index === step);
      }
      const second = Math.floor(at);
      if (second === shownSecond) return;
      shownSecond = second;
      slider.value = String(second);
      slider.setAttribute(
        'aria-valuetext',
        `${spokenTime(at)} of ${spokenTime(timeline.seconds)}, step ${step + 1}: ${data.steps[step]?.title ?? ''}`,
      );
      time.textContent = `${clockTime(at)} / ${of}`;
    },
  };
}
