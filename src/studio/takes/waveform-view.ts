import { html, svg } from '../../player/index.js';
import { afterPause } from '../after-pause.js';
import { moveEnd, nearerEnd } from './cut.js';
import { inSeconds } from './seconds.js';
import type { Stretch } from './stretch.js';
import { outlineOf, wavePeaks } from './wave-peaks.js';

/** Columns of the outline; more are not told apart on any screen that it is drawn for. */
const columns = 1200;
/** A pause after which ends that were moved by key are kept, in milliseconds. */
const pause = 300;
/** From full scale upwards to full scale downwards. */
const height = 2;
/** Overs are marked at the upper and the lower edge, in the same measure. */
const edge = 0.16;

export interface WaveformView {
  readonly element: HTMLElement;
  /** Shows a recording with what is kept of it; ends that are being moved stay where they are. */
  readonly show: (samples: Float32Array, seconds: number, cut: Stretch, overs: readonly Stretch[]) => void;
  /** Marks the place that is heard, in seconds; `undefined` for none. */
  readonly mark: (place: number | undefined) => void;
}

/** The shape of a recording with its two ends, which are moved with the pointer or as two sliders. */
export function waveformView(cutTo: (cut: Stretch) => void): WaveformView {
  let seconds = 0;
  let cut: Stretch = { from: 0, to: 0 };
  /** The ends are being moved: what is shown meanwhile does not take them back. */
  let isMoving = false;
  const keep = (): void => {
    if (!isMoving) return;
    isMoving = false;
    cutTo(cut);
  };
  const keepSoon = afterPause(pause, keep);
  const outline = svg('path', { class: 'wave' });
  const dropped = [
    svg('rect', { class: 'dropped', y: 0, height }),
    svg('rect', { class: 'dropped', y: 0, height }),
  ];
  const overMarks = svg('g', {});
  const heard = svg('line', { class: 'heard', y1: 0, y2: height });
  const picture = svg(
    'svg',
    {
      class: 'waveform',
      viewBox: `0 0 ${String(columns)} ${String(height)}`,
      preserveAspectRatio: 'none',
      'aria-hidden': 'true',
    },
    outline,
    overMarks,
    ...dropped,
    heard,
  );
  const slider = (end: 'from' | 'to', label: string): { input: HTMLInputElement; told: HTMLElement } => {
    const input = html('input', { type: 'range', min: 0, step: 0.01, class: `end-${end}` });
    const told = html('output', {});
    input.addEventListener('input', () => {
      isMoving = true;
      cut = moveEnd(cut, end, Number(input.value), seconds);
      draw();
      keepSoon();
    });
    ends.append(html('label', {}, html('span', {}, label), input, told));
    return { input, told };
  };
  const ends = html('div', { class: 'ends' });
  const sliders = { from: slider('from', 'Begins at'), to: slider('to', 'Ends at') };

  const column = (place: number): number => (seconds === 0 ? 0 : (place / seconds) * columns);
  const draw = (): void => {
    for (const end of ['from', 'to'] as const) {
      const { input, told } = sliders[end];
      input.max = seconds.toFixed(2);
      input.value = cut[end].toFixed(2);
      input.setAttribute('aria-valuetext', inSeconds(cut[end]));
      told.textContent = `${cut[end].toFixed(2)} s`;
    }
    const [before, after] = dropped;
    before?.setAttribute('x', '0');
    before?.setAttribute('width', String(column(cut.from)));
    after?.setAttribute('x', String(column(cut.to)));
    after?.setAttribute('width', String(Math.max(0, columns - column(cut.to))));
  };

  const placeOf = (event: PointerEvent): number => {
    const { left, width } = picture.getBoundingClientRect();
    return ((event.clientX - left) / Math.max(1, width)) * seconds;
  };
  let dragged: 'from' | 'to' | undefined;
  const drag = (event: PointerEvent): void => {
    if (dragged === undefined) return;
    cut = moveEnd(cut, dragged, placeOf(event), seconds);
    draw();
  };
  picture.addEventListener('pointerdown', event => {
    dragged = nearerEnd(cut, placeOf(event));
    isMoving = true;
    picture.setPointerCapture(event.pointerId);
    drag(event);
  });
  picture.addEventListener('pointermove', drag);
  for (const end of ['pointerup', 'pointercancel'])
    picture.addEventListener(end, () => {
      if (dragged === undefined) return;
      dragged = undefined;
      keep();
    });

  return {
    element: html('div', { class: 'waveform-group' }, picture, ends),
    show: (samples, length, kept, overs) => {
      seconds = length;
      if (!isMoving) cut = kept;
      outline.setAttribute('d', outlineOf(wavePeaks(samples, columns)));
      overMarks.replaceChildren(
        ...overs.flatMap(({ from, to }) =>
          [0, height - edge].map(y =>
            svg('rect', {
              class: 'over',
              x: column(from),
              width: Math.max(2, column(to) - column(from)),
              y,
              height: edge,
            }),
          ),
        ),
      );
      draw();
    },
    mark: place => {
      heard.classList.toggle('is-heard', place !== undefined);
      for (const end of ['x1', 'x2']) heard.setAttribute(end, String(column(place ?? 0)));
    },
  };
}
