import { html } from '../../player/index.js';
import { ableButton, setAble } from './able.js';
import type { RecorderState } from './recorder.js';
import { inSeconds } from './seconds.js';

export interface RecordBar {
  readonly element: HTMLElement;
  /** @param canRecord whether there is a text to record, and the one before is written */
  readonly show: (state: RecorderState, canRecord: boolean, hasNext: boolean) => void;
  readonly focus: () => void;
}

export interface RecordBarHandlers {
  readonly record: (withCountIn: boolean) => void;
  readonly stop: () => void;
  readonly next: () => void;
}

/** One button that begins and ends a recording, and how long it has run. */
export function recordBar(handlers: RecordBarHandlers): RecordBar {
  const button = ableButton(
    'Record',
    () => {
      if (isRunning) handlers.stop();
      else handlers.record(countIn.checked);
    },
    'record',
  );
  const countIn = html('input', { type: 'checkbox', checked: true });
  const running = html('span', { class: 'running' });
  const next = ableButton('Next to record', handlers.next);
  let isRunning = false;
  const labelOf = (state: RecorderState): string =>
    state.kind === 'counting' ? 'Leave it' : state.kind === 'recording' ? 'Stop' : 'Record';
  const wordsOf = (state: RecorderState): string => {
    if (state.kind === 'counting') return String(state.left);
    if (state.kind !== 'recording') return '';
    return `${inSeconds(state.seconds)}${state.isClipped ? ', clipped' : ''}`;
  };
  return {
    element: html('div', { class: 'row' }, button, html('label', {}, countIn, ' count in'), running, next),
    focus: () => {
      button.focus();
    },
    show: (state, canRecord, hasNext) => {
      isRunning = state.kind === 'counting' || state.kind === 'recording';
      button.textContent = labelOf(state);
      button.classList.toggle('is-running', state.kind === 'recording');
      setAble(button, isRunning || (canRecord && state.kind !== 'opening'));
      running.textContent = wordsOf(state);
      running.classList.toggle('is-counting', state.kind === 'counting');
      countIn.disabled = isRunning;
      setAble(next, !isRunning && hasNext);
    },
  };
}
