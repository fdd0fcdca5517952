import { html } from '../player/index.js';

/**
 * Asks with one button for each answer; Escape gives the last one, which must be the one that loses nothing, and so does Enter.
 * @param ready the answer that Enter gives, where another one loses nothing either
 */
export function askUser<T extends string>(
  question: string,
  detail: readonly (Node | string)[],
  answers: readonly (readonly [T, string])[],
  ready = answers.at(-1)?.[0],
): Promise<T> {
  return new Promise(resolve => {
    const dialog = html(
      'dialog',
      { class: 'asking', 'aria-label': question },
      html('h2', {}, question),
      ...detail,
    );
    const row = html('p', { class: 'answers' });
    const answer = (value: T): void => {
      dialog.close();
      dialog.remove();
      resolve(value);
    };
    for (const [value, label] of answers) {
      const button = html('button', { type: 'button', autofocus: value === ready }, label);
      button.addEventListener('click', () => {
        answer(value);
      });
      row.append(button);
    }
    const [way] = answers.at(-1) ?? [];
    dialog.addEventListener('cancel', event => {
      event.preventDefault();
      if (way !== undefined) answer(way);
    });
    dialog.append(row);
    document.body.append(dialog);
    dialog.showModal();
  });
}
