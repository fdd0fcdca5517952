import { html } from '../player/index.js';
import { conflictsOf } from './merge-lines.js';
import type { Conflict, MergedPart, Side } from './merge-lines.js';

const sides: readonly (readonly [Side, string])[] = [
  ['here', 'keep what is here'],
  ['onDisk', 'take what is on disk'],
  ['both', 'both, what is here first'],
];

const version = (title: string, lines: readonly string[]): HTMLElement =>
  html(
    'div',
    {},
    html('h4', {}, title),
    lines.length === 0
      ? html('p', { class: 'quiet' }, 'nothing: the lines were taken out')
      : html('pre', { tabindex: 0 }, lines.join('\n')),
  );

/**
 * Shows both versions of every conflict side by side and asks which is to stand.
 * @returns one answer for each conflict in their order; `undefined` where the author decides later
 */
export function askConflicts(parts: readonly MergedPart[]): Promise<readonly Side[] | undefined> {
  const conflicts = conflictsOf(parts);
  return new Promise(resolve => {
    const title = 'Another program has changed this file';
    const dialog = html('dialog', { class: 'asking', 'aria-label': title });
    const choose = (side: Side): void => {
      for (const box of dialog.querySelectorAll<HTMLInputElement>(`input[value="${side}"]`))
        box.checked = true;
    };
    const asked = ({ here, onDisk, before, line }: Conflict, index: number): HTMLElement =>
      html(
        'fieldset',
        { class: 'conflict' },
        html('legend', {}, `Line ${String(line)}`),
        html('div', { class: 'side-by-side' }, version('Here', here), version('On disk', onDisk)),
        ...(before === undefined || before.length === 0
          ? []
          : [
              html(
                'details',
                {},
                html('summary', {}, 'as it was when it was saved last'),
                html('pre', {}, before.join('\n')),
              ),
            ]),
        html(
          'p',
          { class: 'choices' },
          ...sides.map(([side, words]) =>
            html(
              'label',
              {},
              html('input', {
                type: 'radio',
                name: `conflict-${String(index)}`,
                value: side,
                checked: side === 'here',
              }),
              ` ${words}`,
            ),
          ),
        ),
      );
    const answer = (decided: boolean): void => {
      const answers = conflicts.map((_, index) => {
        const chosen = dialog.querySelector<HTMLInputElement>(
          `input[name="conflict-${String(index)}"]:checked`,
        );
        return sides.find(([side]) => side === chosen?.value)?.[0] ?? 'here';
      });
      dialog.close();
      dialog.remove();
      resolve(decided ? answers : undefined);
    };
    const button = (label: string, run: () => void): HTMLButtonElement => {
      const made = html('button', { type: 'button' }, label);
      made.addEventListener('click', run);
      return made;
    };
    dialog.append(
      html('h2', {}, title),
      html(
        'p',
        {},
        conflicts.length === 1
          ? 'One place was changed here and there in different ways. Everything else is put together; one undo takes it back.'
          : `${String(conflicts.length)} places were changed here and there in different ways. Everything else is put together; one undo takes it back.`,
      ),
      html('div', { class: 'conflicts' }, ...conflicts.map(asked)),
      html(
        'p',
        { class: 'answers' },
        button('Go on with this choice', () => {
          answer(true);
        }),
        ...(conflicts.length < 2
          ? []
          : sides.slice(0, 2).map(([side, words]) =>
              button(`everywhere ${words}`, () => {
                choose(side);
              }),
            )),
        button('Decide later', () => {
          answer(false);
        }),
      ),
    );
    dialog.addEventListener('cancel', event => {
      event.preventDefault();
      answer(false);
    });
    document.body.append(dialog);
    dialog.showModal();
  });
}
