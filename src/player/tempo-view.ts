import { html } from './dom.js';
import { speechRange, tempoRange, type Settings } from './settings.js';

export interface TempoView {
  readonly element: HTMLElement;
  readonly update: (settings: Settings) => void;
}

type Name = 'tempo' | 'speechRate' | 'music' | 'speech';

/** How fast and how loud music and words are, in a panel that opens above its button; the button shows the tempo. */
export function tempoView(change: (changed: Partial<Settings>) => void): TempoView {
  const updates: ((settings: Settings) => void)[] = [];

  const slider = (
    name: Name,
    label: string,
    range: { readonly min: number; readonly max: number; readonly per: number },
  ): HTMLElement => {
    const { min, max, per } = range;
    const input = html('input', { type: 'range', min, max, step: 5 });
    const shown = html('output', {});
    input.addEventListener('input', () => {
      change({ [name]: Number(input.value) / per });
    });
    updates.push(settings => {
      const value = Math.round(settings[name] * per);
      input.value = String(value);
      input.setAttribute('aria-valuetext', `${value} per cent`);
      shown.textContent = `${value} %`;
    });
    return html('label', { class: 'dial' }, html('span', {}, label), input, shown);
  };

  const asWritten = html('button', { type: 'button' }, 'As the lesson has it');
  asWritten.addEventListener('click', () => {
    change({ tempo: 100, speechRate: 100 });
  });
  const tempo = html('span', {});
  updates.push(settings => {
    tempo.textContent = `${settings.tempo} %`;
  });
  const panel = html(
    'div',
    { class: 'panel' },
    html(
      'fieldset',
      {},
      html('legend', {}, 'How fast'),
      slider('tempo', 'Tempo of the music', { ...tempoRange, per: 1 }),
      slider('speechRate', 'Pace of the words', { ...speechRange, per: 1 }),
      asWritten,
    ),
    html(
      'fieldset',
      {},
      html('legend', {}, 'How loud'),
      slider('music', 'Music', { min: 0, max: 100, per: 100 }),
      slider('speech', 'Speech', { min: 0, max: 100, per: 100 }),
    ),
  );
  const element = html(
    'details',
    { class: 'pull-up' },
    html('summary', {}, html('span', { class: 'tempo-word' }, 'Tempo '), tempo),
    panel,
  );
  return {
    element,
    update: settings => {
      for (const one of updates) one(settings);
    },
  };
}
