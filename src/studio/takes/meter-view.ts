import { html } from '../../player/index.js';
import { levelOf } from './level.js';
import { nextReading, zoneFrom, zoneOf } from './peak-meter.js';
import type { Zone } from './peak-meter.js';

/** The lowest level that is drawn, in dBFS. */
const floor = -60;

const zoneWords: Readonly<Record<Zone, string>> = {
  silent: 'silence',
  soft: 'soft: come nearer',
  good: 'good',
  loud: 'loud',
  over: 'too loud: move back',
};

export interface MeterView {
  readonly element: HTMLElement;
  /** Shows what was just heard. */
  readonly hear: (block: Float32Array, sampleRate: number) => void;
  readonly rest: () => void;
}

/** How strongly the microphone hears: a bar with the stretch marked in which narration should lie, and the same in words. */
export function meterView(): MeterView {
  const words = html('span', { class: 'level-words' });
  const bar = html('span', { class: 'level-bar' });
  const meter = html(
    'span',
    {
      class: 'level',
      role: 'meter',
      'aria-label': 'Level',
      'aria-valuemin': floor,
      'aria-valuemax': 0,
      'aria-valuenow': floor,
      'aria-valuetext': 'silence',
    },
    html('span', { class: 'level-aim' }),
    bar,
  );
  const share = (level: number): number => Math.min(1, Math.max(0, 1 - level / floor));
  meter.style.setProperty('--aim-from', String(share(zoneFrom.good)));
  meter.style.setProperty('--aim-to', String(share(zoneFrom.loud)));
  let reading = -Infinity;
  let isDue = false;
  const draw = (): void => {
    isDue = false;
    const zone = zoneOf(reading);
    const shown = Math.min(0, Math.round(Math.max(floor, reading)));
    const text =
      zone === 'silent'
        ? zoneWords.silent
        : `${shown < 0 ? '−' : ''}${String(Math.abs(shown))} dBFS, ${zoneWords[zone]}`;
    bar.style.setProperty('--share', share(reading).toFixed(3));
    meter.dataset['zone'] = zone;
    if (words.textContent === text) return;
    words.textContent = text;
    meter.setAttribute('aria-valuenow', String(shown));
    meter.setAttribute('aria-valuetext', text);
  };
  const drawSoon = (): void => {
    if (isDue) return;
    isDue = true;
    requestAnimationFrame(draw);
  };
  return {
    element: html('span', { class: 'level-group' }, meter, words),
    hear: (block, sampleRate) => {
      reading = nextReading(reading, levelOf(block).peak, block.length / sampleRate);
      drawSoon();
    },
    rest: () => {
      reading = -Infinity;
      drawSoon();
    },
  };
}
