import { html } from '../../player/index.js';
import { meterView } from './meter-view.js';
import { microphones, microphoneTrouble } from './microphone.js';
import { recorder } from './recorder.js';
import type { Recorder, RecorderState } from './recorder.js';

export interface MicrophoneBar {
  readonly element: HTMLElement;
  readonly recorder: Recorder;
  /** Opens the microphone where it is not open yet. @returns whether it is open now; where not, the bar says why */
  readonly ready: () => Promise<boolean>;
}

/** The choice of the microphone, and how strongly it hears. */
export function microphoneBar(changed: (state: RecorderState) => void): MicrophoneBar {
  const meter = meterView();
  const trouble = html('p', { class: 'trouble', role: 'alert' });
  const open = html('button', { type: 'button' }, 'Open the microphone');
  const choice = html('select', { 'aria-label': 'Microphone' });
  choice.hidden = true;

  const own = recorder({
    state: state => {
      open.hidden = state.kind !== 'closed';
      choice.hidden = state.kind === 'closed' || choice.length === 0;
      choice.disabled = state.kind === 'counting' || state.kind === 'recording';
      meter.element.hidden = state.kind === 'closed';
      if (state.kind === 'closed') meter.rest();
      changed(state);
    },
    heard: meter.hear,
    lost: () => {
      trouble.textContent = 'The microphone has gone. Plug it in again, or open another one.';
    },
  });
  meter.element.hidden = true;

  const openDevice = async (device: string | undefined): Promise<boolean> => {
    trouble.textContent = '';
    try {
      await own.open(device);
      const all = await microphones();
      choice.replaceChildren(
        ...all.map(({ id, name }) => html('option', { value: id, selected: id === own.device() }, name)),
      );
      choice.hidden = false;
      return true;
    } catch (error) {
      trouble.textContent = microphoneTrouble(error);
      return false;
    }
  };
  open.addEventListener('click', () => {
    void openDevice(undefined).then(isOpen => {
      if (isOpen) choice.focus();
    });
  });
  choice.addEventListener('change', () => {
    void openDevice(choice.value);
  });

  return {
    element: html(
      'div',
      { class: 'microphone' },
      html('div', { class: 'row' }, open, choice, meter.element),
      trouble,
    ),
    recorder: own,
    ready: async () => own.state().kind === 'ready' || (await openDevice(undefined)),
  };
}
