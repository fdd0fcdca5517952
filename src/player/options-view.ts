import { html } from './dom.js';
import type { HandoutKind } from './handout.js';
import type { Layer } from '../lesson/index.js';
import { allLayers, type Settings } from './settings.js';
import type { Shortcut } from './shortcuts.js';

export interface OptionsView {
  readonly element: HTMLElement;
  readonly update: (settings: Settings) => void;
}

type Choices<T extends string> = readonly (readonly [value: T, label: string])[];

const layerNames: Readonly<Record<Layer, string>> = {
  figures: 'Figured bass',
  chords: 'Chords',
  numerals: 'Numerals',
  functions: 'Functions',
  keys: 'Keys',
  'non-chord tones': 'Non-chord tones',
};

/** Everything that the reader can set, in one panel that opens below its button. */
export function optionsView(
  initial: Settings,
  shortcuts: readonly Shortcut[],
  change: (changed: Partial<Settings>) => void,
  print: (kind: HandoutKind) => void,
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

  const checkbox = (name: 'captions' | 'keys' | 'oneByOne', label: string): HTMLElement => {
    const input = html('input', { type: 'checkbox' });
    input.addEventListener('change', () => {
      change({ [name]: input.checked });
    });
    updates.push(settings => {
      input.checked = settings[name];
    });
    return html('label', {}, input, ` ${label}`);
  };

  const layerBox = (layer: Layer): HTMLElement => {
    const input = html('input', { type: 'checkbox' });
    let settings = initial;
    input.addEventListener('change', () => {
      const layers = allLayers.filter(one => (one === layer ? input.checked : settings.layers.includes(one)));
      change({ layers, labels: 'own' });
    });
    updates.push(next => {
      settings = next;
      input.checked = next.layers.includes(layer);
    });
    return html('label', {}, input, ` ${layerNames[layer]}`);
  };

  const printButton = (kind: HandoutKind, label: string): HTMLElement => {
    const button = html('button', { type: 'button' }, label);
    button.addEventListener('click', () => {
      print(kind);
    });
    return button;
  };

  const columns = html(
    'div',
    { class: 'columns' },
    radios('Score', 'extent', [
      ['fitting', 'As fits the window'],
      ['whole', 'Whole score'],
      ['step', 'This step only'],
    ]),
    radios('Labels', 'labels', [
      ['lesson', 'As the lesson shows them'],
      ['own', 'As ticked'],
      ['none', 'Hidden'],
    ]),
    html('fieldset', { class: 'layers' }, html('legend', {}, 'Ticked labels'), ...allLayers.map(layerBox)),
    html(
      'fieldset',
      {},
      html('legend', {}, 'Words'),
      checkbox('captions', 'Captions'),
      checkbox('oneByOne', 'Cover labels, uncover one by one'),
    ),
    radios('Colours', 'theme', [
      ['system', 'As the device'],
      ['light', 'Light'],
      ['dark', 'Dark'],
    ]),
    html(
      'fieldset',
      { class: 'printing' },
      html('legend', {}, 'On paper'),
      printButton('handout', 'Handout with blanks'),
      printButton('key', 'Key with labels and reasons'),
    ),
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
  const element = html(
    'details',
    { class: 'options pull-up' },
    html('summary', {}, 'Options'),
    html('div', { class: 'panel' }, columns),
  );
  const update = (settings: Settings): void => {
    for (const one of updates) one(settings);
  };
  update(initial);
  return { element, update };
}
