import { html } from '../player/index.js';
import type { Bridge } from '../bridge/index.js';

type Wanted = 'lesson' | 'score' | 'folder';

/** A name that a lesson may have: no part of a path, and its ending. */
const lessonName = /^[^/\\]+\.ya?ml$/iu;

/**
 * Lets the user choose a file or a folder: in a dialog of the system where the host has one, else among the files of the folder that the
 * host was started in.
 * @returns its absolute path; `undefined` where the user gave up
 */
export async function chooseFile(
  bridge: Bridge,
  what: Wanted,
  dialogs: boolean,
  folder: string,
): Promise<string | undefined> {
  if (dialogs) {
    const answer = await bridge.ask('choose', { what });
    return answer.ok ? answer.value.path : undefined;
  }
  return browseFor(bridge, what, folder);
}

/**
 * Lets the user choose where a lesson is to be written.
 * @param name offered where the host has no dialogs
 * @returns as `chooseFile`; the file may be there already
 */
export async function chooseNewFile(
  bridge: Bridge,
  near: string,
  name: string,
  dialogs: boolean,
  folder: string,
): Promise<string | undefined> {
  if (!dialogs) return browseFor(bridge, 'folder', folder, name);
  const answer = await bridge.ask('choose', { what: 'save-as', near });
  return answer.ok ? answer.value.path : undefined;
}

/** @param name where a file is to be written in the folder that is chosen: the name that is offered for it */
function browseFor(bridge: Bridge, what: Wanted, start: string, name?: string): Promise<string | undefined> {
  return new Promise(resolve => {
    const place = html('p', { class: 'quiet' });
    const list = html('ul', { class: 'entries' });
    const give = html('button', { type: 'button' }, 'Leave it');
    const take = html(
      'button',
      { type: 'button', hidden: what !== 'folder' },
      name === undefined ? 'This folder' : 'Save in this folder',
    );
    const field = html('input', { type: 'text', value: name, 'aria-label': 'Name of the lesson' });
    const title =
      name !== undefined
        ? 'Save the lesson as'
        : what === 'folder'
          ? 'Choose a folder for the page and its files'
          : `Choose a ${what}`;
    const dialog = html(
      'dialog',
      { class: 'asking', 'aria-label': title },
      html('h2', {}, title),
      place,
      list,
      ...(name === undefined ? [] : [html('p', {}, field)]),
      html('p', { class: 'answers' }, take, give),
    );
    let here = start;
    const end = (path: string | undefined): void => {
      dialog.close();
      dialog.remove();
      resolve(path);
    };
    const show = async (folder: string): Promise<void> => {
      const answer = await bridge.ask('browse', { folder });
      if (!answer.ok) {
        place.textContent = answer.problem.message;
        return;
      }
      here = answer.value.folder;
      place.textContent = here;
      const { parent, entries } = answer.value;
      const up =
        parent === undefined ? [] : [{ name: 'the folder above', path: parent, kind: 'folder' as const }];
      const fitting = [...up, ...entries].filter(({ kind }) => kind === 'folder' || kind === what);
      list.replaceChildren(
        ...fitting.map(({ name, path, kind }) => {
          const button = html(
            'button',
            { type: 'button', class: `entry is-${kind}` },
            kind === 'folder' ? `${name} /` : name,
          );
          button.addEventListener('click', () => {
            if (kind === 'folder') void show(path);
            else end(path);
          });
          return html('li', {}, button);
        }),
      );
    };
    give.addEventListener('click', () => {
      end(undefined);
    });
    const isNamed = (): boolean => name === undefined || lessonName.test(field.value.trim());
    field.addEventListener('input', () => {
      field.setCustomValidity(isNamed() ? '' : 'a name that ends in .yaml');
    });
    take.addEventListener('click', () => {
      if (!isNamed()) field.reportValidity();
      else if (name === undefined) end(here);
      else end(`${here}${here.includes('/') ? '/' : '\\'}${field.value.trim()}`);
    });
    dialog.addEventListener('cancel', event => {
      event.preventDefault();
      end(undefined);
    });
    document.body.append(dialog);
    dialog.showModal();
    void show(start);
  });
}
