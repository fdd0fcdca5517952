import { html } from '../../player/index.js';

/**
 * A button that can be without use for a while: it is told to be, and does nothing, but it keeps the focus, which `disabled` would take
 * away from whoever works by keyboard.
 */
export function ableButton(label: string, run: () => void, look = ''): HTMLButtonElement {
  const button = html('button', { type: 'button', ...(look === '' ? {} : { class: look }) }, label);
  button.addEventListener('click', () => {
    if (button.getAttribute('aria-disabled') !== 'true') run();
  });
  return button;
}

export function setAble(button: HTMLButtonElement, isAble: boolean): void {
  if (isAble) button.removeAttribute('aria-disabled');
  else button.setAttribute('aria-disabled', 'true');
}
