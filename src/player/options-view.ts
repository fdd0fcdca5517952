import { html } from './dom.js';
import type { Settings } from './settings.js';
import type { Shortcut } from './shortcuts.js';

export interface OptionsView {
  readonly element: HTMLElement;
  readonly update: (settings: Settings) => void;
}

type Choices<T extends string> = readonly (readonly [value: T, label: string])[];

/** Everything that the reader can set, in one panel that opens below its button. */
export function optionsView(
  initial: Settings,
  shortcuts: readonly Shortcut[],
  change: (changed: Partial<Settings>) => void,
): OptionsView {
  const updates: ((settings: Settings) => void)[] = [];

  const radios = <T extends string>(legend: string, name: keyof Settings, choices: Choices<T>): HTMLElement =>
    html(
      'fieldset',
      {},
      html('legend', {}, legend),
      ...choices.map(([value, label]) => {
        const input = html('input', { type: 'radio', name, value });
        input.addEventListener('change', () => {
          change({ [name]: value });
        });
        updates.push(settings => {
          input.checked = settings[name] === value;
        });
        return html('label', {}, input, ` ${label}`);
      }),
    );

  const checkbox = (name: 'captions' | 'keys', label: string): HTMLElement => {
    const input = html('input', { type: 'checkbox' });
    input.addEventListener('change', () => {
      change({ [name]: input.checked });
    });
    updates.push(settings => {
      input.checked = settings[name];
    });
    return html('label', {}, input, ` ${label}`);
  };

  const volume = (name: 'music' | 'speech', label: string): HTMLElement => {
    const input = html('input', { type: 'range', min: 0, max: 100, step: 5 });
    input.addEventListener('input', () => {
      change({ [name]: Number(input.value) / 100 });
    });
    updates.push(settings => {
      input.value = String(Math.round(settings[name] * 100));
    });
    return html('label', { class: 'volume' }, html('span', {}, label), input);
  };

  const panel = html(
    'div',
    { class: 'options-panel' },
    radios('Score', 'extent', [
      ['fitting', 'As fits the window'],
      ['whole', 'Whole score'],
      ['step', 'This step only'],
    ]),
    radios('Labels', 'labels', [
      ['lesson', 'As the lesson shows them'],
      ['none', 'Hidden'],
    ]),
    html('fieldset', {}, html('legend', {}, 'Sound'), volume('music', 'Music'), volume('speech', 'Speech')),
    html('fieldset', {}, html('legend', {}, 'Words'), checkbox('captions', 'Captions')),
    radios('Paper', 'theme', [
      ['system', 'As the device'],
      ['light', 'Light'],
      ['dark', 'Dark'],
    ]),
    html(
      'fieldset',
      {},
      html('legend', {}, 'Keys'),
      checkbox('keys', 'Single keys do something'),
      html(
        'dl',
        { class: 'keys' },
        ...shortcuts.map(({ name, does }) =>
          html('div', {}, html('dt', {}, html('kbd', {}, name)), html('dd', {}, does)),
        ),
      ),
    ),
  );
  const element = html('details', { class: 'options' }, html('summary', {}, 'Options'), panel);
  element.addEventListener('keydown', event => {
    if (event.key !== 'Escape' || !element.open) return;
    element.open = false;
    element.querySelector('summary')?.focus();
  });
  const update = (settings: Settings): void => {
    for (const one of updates) one(settings);
  };
  update(initial);
  return { element, update };
}
